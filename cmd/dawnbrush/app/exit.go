package app

// Exit codes. They are a promise to scripts: a test pins them, `dawnbrush help
// exit-codes` tables them, and their meaning never changes.
const (
	exitDone        = 0
	exitFailed      = 1
	exitUsage       = 2
	exitIncomplete  = 10
	exitWork        = 11
	exitBug         = 70
	exitNoForecast  = 75
	exitGarden      = 78
	exitInterrupted = 130
)

// exitCode is one row of the table.
type exitCode struct {
	code    int
	meaning string
	remedy  string // what the owner of a cron job should do
}

// exitCodes lists every code in order.
func exitCodes() []exitCode {
	return []exitCode{
		{exitDone, "done: the plan is whole, whatever it says", "nothing"},
		{exitFailed, "failed for another reason", "read the message"},
		{exitUsage, "wrong usage: an unknown flag, crop or command", "mend the line"},
		{exitIncomplete, "plan made, but an hour or layer that today's or tomorrow's tasks need is stale or unknown", "read \"Not known\" in the plan"},
		{exitWork, "only with `today --signal`: there is work to do", "do it"},
		{exitBug, "a fault of dawnbrush itself", "report it"},
		{exitNoForecast, "no forecast could be had", "try again later"},
		{exitGarden, "the garden file is missing or cannot be used", "run `dawnbrush check`"},
		{exitInterrupted, "interrupted", "-"},
	}
}
