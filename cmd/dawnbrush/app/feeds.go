package app

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/forecast/feed/fetch"
	"dawnbrush/risk"
)

func (p *program) feeds() *cobra.Command {
	return &cobra.Command{
		Use:   "feeds",
		Short: "where the weather comes from, on what terms, and what is at hand",
		Long: `Lists the weather feeds: what each serves, asks and allows, which of them this
garden uses, and what of them is stored. Nothing is fetched.

feed = "auto" in the garden file takes the first of the list that serves the
place and is free for everybody, second_feed = "auto" the next. The second one
stands in when the first cannot be had, and where the two part for today and
tomorrow the plan says so. A feed that is free for those alone who do not sell
what they grow is never taken unless the garden file names it.

Without a service, --from FILE plans from a saved document of any of them.`,
		Example: "  dawnbrush feeds\n  dawnbrush feeds --json",
		Args:    exactly(0, "nothing more"),
		RunE:    func(*cobra.Command, []string) error { return p.printFeeds() },
	}
}

// feedRow is a feed as it is listed.
type feedRow struct {
	Key           string     `json:"key"`
	Name          string     `json:"name"`
	Used          *string    `json:"used"`   // first or second
	Serves        *bool      `json:"serves"` // this garden
	Coverage      string     `json:"coverage"`
	Past          string     `json:"past_hours"`
	Terms         string     `json:"terms"`
	TermsURL      string     `json:"terms_url"`
	TermsRead     string     `json:"terms_read"`
	NonCommercial bool       `json:"non_commercial"`
	Licence       string     `json:"licence"`
	Credit        string     `json:"credit"`
	Hosts         []string   `json:"hosts"`
	Copies        []feedCopy `json:"copies"`
}

// feedCopy is a stored document.
type feedCopy struct {
	URL        string    `json:"url"`
	Status     int       `json:"status"`
	Fetched    time.Time `json:"fetched"`
	FreshUntil time.Time `json:"fresh_until"`
	Bytes      int       `json:"bytes"`
}

// printFeeds lists the feeds; without a garden file it tells of none that it is
// used.
func (p *program) printFeeds() error {
	file, _, err := p.readGarden()
	if err != nil && p.options.config != "" {
		return err
	}
	var used []feed.Reader
	if file != nil {
		used = p.chosen(file)
	}
	copies, damaged, err := (&fetch.Client{Dir: p.cacheDir()}).Copies()
	if err != nil {
		return failed(err, "", "cannot read the stored documents: %v", err)
	}
	rows := []feedRow{}
	for _, r := range all.Readers() {
		rows = append(rows, p.feedRow(r, file, used, copies))
	}
	if p.options.json {
		return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "feeds", "feeds": rows, "damaged_copies": damaged})
	}
	zone := time.UTC
	if file != nil {
		zone = file.Garden.Place.Zone
	}
	var b strings.Builder
	for i := range rows {
		if i > 0 {
			b.WriteString("\n")
		}
		rows[i].print(&b, words.New(risk.Metric, zone), p.env.Now())
	}
	if damaged > 0 {
		fmt.Fprintf(&b, "\n%s, to be fetched anew\n", words.Count(damaged, "stored document is damaged", "stored documents are damaged"))
	}
	_, err = p.out.Write([]byte(b.String()))
	return err
}

func (p *program) feedRow(r feed.Reader, file *config.File, used []feed.Reader, copies []fetch.Copy) feedRow {
	i := r.Info()
	row := feedRow{Key: i.Key, Name: i.Name, Coverage: i.Coverage, Past: i.Past, Terms: i.Terms, TermsURL: i.TermsURL, TermsRead: i.TermsRead,
		NonCommercial: i.NonCommercial, Licence: i.Licence, Credit: i.Attribution, Hosts: i.Hosts, Copies: []feedCopy{}}
	if base, err := url.Parse(p.env.Getenv(addressVariable(i.Key))); err == nil && base.Host != "" {
		row.Hosts = []string{base.Host}
	}
	if file != nil {
		serves := r.Covers(file.Garden.Place)
		row.Serves = &serves
	}
	if n := slices.IndexFunc(used, func(u feed.Reader) bool { return u.Info().Key == i.Key }); n >= 0 {
		row.Used = &[]string{"first", "second"}[n]
	}
	for _, c := range copies {
		if u, err := url.Parse(c.URL); err == nil && slices.Contains(row.Hosts, u.Host) {
			row.Copies = append(row.Copies, feedCopy(c))
		}
	}
	slices.SortFunc(row.Copies, func(a, b feedCopy) int { return b.Fetched.Compare(a.Fetched) })
	return row
}

func (r *feedRow) print(b *strings.Builder, w words.Words, now time.Time) {
	use := ""
	switch {
	case r.Used != nil:
		use = ", " + *r.Used + " of this garden"
	case r.Serves != nil && !*r.Serves:
		use = ", does not serve this garden"
	}
	fmt.Fprintf(b, "%s  %s%s\n", r.Key, r.Name, use)
	lines := [][2]string{{"serves", r.Coverage}, {"past hours", r.Past}, {"asks", r.Terms}, {"terms", r.TermsURL + " (read " + r.TermsRead + ")"},
		{"licence", r.Licence}, {"credit", r.Credit}, {"stored", r.stored(w, now)}}
	for _, l := range lines {
		if l[1] == "" {
			l[1] = "none"
		}
		fmt.Fprintf(b, "  %-11s %s\n", l[0], strings.Join(wrapAt(l[1], 64), "\n              "))
	}
}

// stored says what is at hand of a feed and how it last answered.
func (r *feedRow) stored(w words.Words, now time.Time) string {
	if len(r.Copies) == 0 {
		return "nothing"
	}
	last := r.Copies[0]
	size := 0
	for _, c := range r.Copies {
		size += c.Bytes
	}
	s := fmt.Sprintf("%s, %d KB; last answered %s ago with %d", words.Count(len(r.Copies), "document", "documents"), (size+1023)/1024, w.Age(max(0, now.Sub(last.Fetched))), last.Status)
	if last.FreshUntil.After(now) {
		s += ", good until " + w.Moment(last.FreshUntil)
	}
	return s
}
