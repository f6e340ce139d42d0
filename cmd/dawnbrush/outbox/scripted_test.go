package outbox_test

import (
	"bufio"
	"fmt"
	"net"
	"strings"
)

// speak holds one conversation of RFC 5321 and leaves in the middle of it: before the
// greeting, before the answer to a command, within the text, after the answer to the
// text. It tells whether it answered for the letter.
func speak(c net.Conn, dies string) (took bool) {
	in := bufio.NewReader(c)
	if dies == "greeting" {
		return false
	}
	fmt.Fprint(c, "220 mail.example.org ESMTP\r\n")
	for {
		line, err := in.ReadString('\n')
		if err != nil {
			return took
		}
		verb, _, _ := strings.Cut(strings.TrimSpace(strings.ToUpper(line)), " ")
		switch verb {
		case dies:
			return took
		case "QUIT":
			fmt.Fprint(c, "221 bye\r\n")
			return took
		case "DATA":
			fmt.Fprint(c, "354 go on\r\n")
			if !text354(in, dies == "text") {
				return false
			}
			fmt.Fprint(c, "250 taken\r\n")
			if took = true; dies == "reply" {
				return took
			}
		default:
			fmt.Fprint(c, "250 fine\r\n")
		}
	}
}

// text354 reads a letter to its dot, or only its beginning.
func text354(in *bufio.Reader, part bool) (whole bool) {
	for n := 0; ; n++ {
		line, err := in.ReadString('\n')
		switch {
		case err != nil, part && n == 20:
			return false
		case line == ".\r\n":
			return true
		}
	}
}
