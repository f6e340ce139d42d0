package app

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
)

// answers are what init asks for; each has a flag.
type answers struct {
	name, lat, lon, zone, units, contact string
	crops                                []string
	force                                bool
}

func (p *program) init() *cobra.Command {
	var a answers
	c := &cobra.Command{
		Use:   "init",
		Short: "write a garden file with every setting explained",
		Long: `Writes a garden file with every setting explained. What no flag tells is asked
for when there is a terminal. An existing file is kept unless --force is given.`,
		Example: `  dawnbrush init
  dawnbrush init --lat 40.71 --lon -74.01 --zone America/New_York --crop tomato`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error { return p.runInit(a) },
	}
	f := c.Flags()
	f.StringVar(&a.name, "name", "", "`NAME` of the garden")
	f.StringVar(&a.lat, "lat", "", "`DEGREES` north; south is negative")
	f.StringVar(&a.lon, "lon", "", "`DEGREES` east; west, so all of America, is negative")
	f.StringVar(&a.zone, "zone", "", "time `ZONE` such as America/New_York")
	f.StringVar(&a.contact, "contact", "", "`ADDRESS` that the weather service may write to")
	f.StringArrayVar(&a.crops, "crop", nil, "`CROP` that is planted; may be given again")
	f.BoolVar(&a.force, "force", false, "overwrite an existing file")
	return c
}

func (p *program) runInit(a answers) error {
	path := p.gardenPath()
	if _, err := os.Stat(path); err == nil && !a.force {
		return failed(nil, "edit it, or give --force to write it anew", "there is a garden file already: %s", path)
	}
	a.units = strings.ToLower(p.options.units)
	if _, ok := p.env.Terminal(p.env.In); ok {
		if err := p.ask(&a); err != nil {
			return err
		}
	}
	if a.lat == "" || a.lon == "" {
		return usage("dawnbrush init --lat 40.71 --lon -74.01 --zone America/New_York", "init needs --lat and --lon, for nobody can be asked here")
	}
	if a.zone == "" {
		return usage("dawnbrush init ... --zone America/New_York", "init needs --zone, for nobody can be asked here")
	}
	text, err := p.gardenText(a)
	if err != nil {
		return err
	}
	if err := writeWhole(path, text); err != nil {
		return failed(err, "choose another place with --config", "cannot write the garden file: %v", err)
	}
	if p.options.json {
		return jsonout.Written(p.out, "init", path)
	}
	var steps strings.Builder
	if a.contact == "" {
		steps.WriteString("  - write a contact, for weather services ask every program for one\n")
	}
	if len(a.crops) == 0 {
		steps.WriteString("  - add a [[planting]] for each planting, with its number of plants and the day it was sown\n")
	} else {
		steps.WriteString("  - give each planting plants = 6, or how many, and a date: sown or first_female\n")
	}
	_, err = fmt.Fprintf(p.out, "wrote %s\nNext, in that file:\n%sthen\n  dawnbrush check     shows every setting\n  dawnbrush today     makes the plan\n", path, steps.String())
	return err
}

// gardenText makes the file by way of the strict reader, so that what init
// accepts is what every other command accepts.
func (p *program) gardenText(a answers) ([]byte, error) {
	var b strings.Builder
	put := func(key, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s = %s\n", key, value)
		}
	}
	put("units", quoted(a.units))
	put("name", quoted(a.name))
	put("contact", quoted(a.contact))
	b.WriteString("[place]\n")
	put("lat", a.lat)
	put("lon", a.lon)
	put("zone", quoted(a.zone))
	for i, word := range a.crops {
		b.WriteString("[[planting]]\n")
		put("name", quoted(nameFor(a.crops[:i], word)))
		put("crop", quoted(word))
		if c, ok := crops().Find(word); ok && c.Corn != nil {
			put("rows", "4")
		}
	}
	file, faults := config.Parse("what init was told", []byte(b.String()), config.Known{Crops: crops(), Feeds: feeds()})
	if file == nil {
		first := faults.Errors()[0]
		return nil, usage(first.Hint, "%s", first.Message)
	}
	return config.Write(file), nil
}

// nameFor names a planting after its crop, with a number from the second on.
func nameFor(before []string, word string) string {
	n := 1
	for _, w := range before {
		if strings.EqualFold(w, word) {
			n++
		}
	}
	if n == 1 {
		return word
	}
	return fmt.Sprintf("%s %d", word, n)
}

func quoted(s string) string {
	if s == "" {
		return ""
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ").Replace(s) + `"`
}
