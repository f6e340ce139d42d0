// Dawnbrush tells a grower each morning and a week ahead which flowers the bees
// will not finish, and when to take a brush to them.
package main

import (
	"os"

	"dawnbrush/cmd/dawnbrush/app"
)

func main() { os.Exit(app.Main(os.Args[1:], app.System())) }
