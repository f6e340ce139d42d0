//go:build unix

package outbox

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// group lets a command be stopped together with all it has begun.
func group(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Cancel = func() error {
		err := syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		if errors.Is(err, syscall.ESRCH) {
			return os.ErrProcessDone // it ended by itself meanwhile, and its status counts
		}
		return err
	}
}
