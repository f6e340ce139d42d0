// Package fetch gets documents from weather services the way their operators
// ask for: it names itself and a person to write to, asks only for what has
// changed, waits as long as it is told, gives up after a few tries, and keeps
// the last good copy on disk. It knows nothing of weather.
//
// Rules followed: conditional requests RFC 9110 section 13, Retry-After section
// 10.2.3, freshness RFC 9111 section 4.2, problem documents RFC 9457.
package fetch
