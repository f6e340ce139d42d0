// Package outbox hands letters on: to a command that reads a message, to a mail
// server, to an address on the web, or to standard output.
//
// A letter is in the garden's file (package store) before its first try. A try is
// noted before it begins and its end when it has ended, so that a program killed
// between any two steps loses nothing. What it can do is send a letter twice: when
// it ends after the other side took the letter and before that was noted. The
// letter's Message-ID stays the same, so that a mail program can drop the double.
//
// A hook says what became of a letter: it was sent, it is to be tried later, or it
// is refused for good. Refused is said only when the letter or its recipient was
// judged; where the way itself is at fault (no network, a wrong password, a missing
// command) the letter waits, for the way can be mended.
//
// Nothing here reads a clock or the environment: both come in as values.
package outbox
