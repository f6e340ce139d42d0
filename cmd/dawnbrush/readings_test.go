package main

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// readings writes an invented logger's file, a row an hour, hot by day:
// "readings FILE 2026-07-05T00:00:00-06:00 HOURS [SHIFT]"; SHIFT sets its clock wrong
// by so many hours.
func readings(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 && len(args) != 4 {
		ts.Fatalf("usage: readings FILE START HOURS [SHIFT]")
	}
	start, err := time.Parse(time.RFC3339, args[1])
	ts.Check(err)
	n, err := strconv.Atoi(args[2])
	ts.Check(err)
	shift := 0
	if len(args) == 4 {
		shift, err = strconv.Atoi(args[3])
		ts.Check(err)
	}
	var b strings.Builder
	b.WriteString("time,temp_c,rh\n")
	for i := 1; i <= n; i++ {
		t := start.Add(time.Duration(i) * time.Hour)
		sun := math.Sin(2 * math.Pi * (float64(t.Hour()) - 8.5) / 24)
		fmt.Fprintf(&b, "%s,%.1f,%.0f\n", t.Add(time.Duration(shift)*time.Hour).Format(time.RFC3339), 25+11*sun, 65-20*sun)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o644))
}
