package outbox

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Secret is a password or key. It prints as a placeholder.
type Secret struct{ text string }

// String gives a placeholder.
func (Secret) String() string { return "(secret)" }

// GoString gives a placeholder.
func (Secret) GoString() string { return "(secret)" }

// Keep says where a secret is kept: in a file of its own, or under a name in the
// folder that a service manager fills (systemd's $CREDENTIALS_DIRECTORY).
type Keep struct {
	File       string
	Credential string // a name; taken when File is empty
	Folder     string // of credentials; "" when there is none
}

// mostSecret bounds a secret. [chosen: long enough for any token]
const mostSecret = 4 << 10

// Read gives the secret. A file must belong to its owner alone; line breaks at its
// end are no part of it. Errors are *SecretError.
func (k Keep) Read() (Secret, error) {
	path := k.File
	if path == "" {
		if k.Folder == "" {
			return Secret{}, &SecretError{Name: k.Credential, Fault: "there is no folder of credentials ($CREDENTIALS_DIRECTORY is not set)",
				Remedy: "add LoadCredential=" + k.Credential + ":FILE to the unit, or name a file instead"}
		}
		path = filepath.Join(k.Folder, k.Credential)
	}
	fault := func(remedy, format string, args ...any) (Secret, error) {
		return Secret{}, &SecretError{Name: path, Fault: fmt.Sprintf(format, args...), Remedy: remedy}
	}
	f, err := os.Open(path)
	if err != nil {
		return fault("see that it exists and may be read by the user who runs dawnbrush", "%v", reason(err))
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return fault("", "%v", reason(err))
	case !info.Mode().IsRegular():
		return fault("name a file", "it is no file")
	case k.File != "" && info.Mode().Perm()&0o077 != 0 && runtime.GOOS != "windows":
		return fault("chmod 600 "+path, "others may read it")
	}
	text, err := io.ReadAll(io.LimitReader(f, mostSecret+1))
	secret := strings.TrimRight(string(text), "\r\n")
	switch {
	case err != nil:
		return fault("", "%v", reason(err))
	case len(text) > mostSecret:
		return fault("is it the right file?", "it is longer than 4 KiB")
	case secret == "":
		return fault("write the secret into it, on one line", "it is empty")
	case strings.ContainsAny(secret, "\r\n\x00"):
		return fault("write the secret on one line and nothing else", "it has more than one line")
	}
	return Secret{text: secret}, nil
}

// reason leaves out the path, which the message holds already.
func reason(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// SecretError tells why a secret cannot be used. It never holds the secret.
type SecretError struct{ Name, Fault, Remedy string }

func (e *SecretError) Error() string {
	return fmt.Sprintf("the secret in %s cannot be used: %s", e.Name, e.Fault)
}

// Hint tells the remedy.
func (e *SecretError) Hint() string { return e.Remedy }
