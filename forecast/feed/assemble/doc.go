// Package assemble puts a series together from what a weather document says of
// each quantity and each stretch of time: it converts and bounds the values, lays
// them into full hours, keeps rain sums as the blocks they were issued in, works
// out humidity or dew point where one is missing, and says what is missing.
// Readers share it; it knows none of them.
package assemble
