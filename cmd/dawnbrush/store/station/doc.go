// Package station reads the measurements of a grower's own weather station or
// rain gauge from a CSV file. It is strict: what is not understood is a fault
// with its line, and a file with a fault gives nothing.
//
// The first line names the columns, in any order: time and at least one of
// those in [Columns]. A cell left empty is not known. The time is RFC 3339, or
// local in the garden's zone as 2026-07-16 05:00, and ends the span its row
// tells of: a row at 05:00 belongs to the hour that begins at 04:00. Rows may
// stand for any span up to an hour; they are put together into hours, whose
// temperature, humidity, wind and radiation are means, whose gust is the highest
// and whose rain is the sum.
package station
