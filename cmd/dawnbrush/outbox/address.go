package outbox

import "net/mail"

// bare gives the address proper of "Name <address>".
func bare(address string) string {
	if a, err := mail.ParseAddress(address); err == nil {
		return a.Address
	}
	return address
}
