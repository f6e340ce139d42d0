package words

import (
	"fmt"
	"strings"

	"github.com/go-playground/locales"
	"github.com/go-playground/locales/cs"
	"github.com/go-playground/locales/da"
	"github.com/go-playground/locales/de"
	"github.com/go-playground/locales/es"
	"github.com/go-playground/locales/fi"
	"github.com/go-playground/locales/fr"
	"github.com/go-playground/locales/it"
	"github.com/go-playground/locales/nb"
	"github.com/go-playground/locales/nl"
	"github.com/go-playground/locales/pl"
	"github.com/go-playground/locales/pt"
	"github.com/go-playground/locales/sv"

	"dawnbrush/forecast"
)

// Dates is how dates are written: their language, which need not be that of the
// sentences. The zero Dates is English, day before month: "Thu 16 July".
type Dates uint8 // place in the list

// dateForm is the order of weekday, day and month.
type dateForm uint8

const (
	dayMonth    dateForm = iota // "jeu 16 juillet"
	dayDotMonth                 // "Do 16. Juli"
	dayOfMonth                  // "jue 16 de julio"
	monthDay                    // "Thu July 16"
)

// dateWords are the words of one language.
type dateWords struct {
	key   string
	names func() locales.Translator // nil for English
	form  dateForm
}

// Names of days and months are those of the Unicode CLDR.
var allDates = [...]dateWords{
	{key: "en"}, {key: "en-us", form: monthDay},
	{"cs", cs.New, dayDotMonth}, {"da", da.New, dayDotMonth}, {"de", de.New, dayDotMonth}, {"es", es.New, dayOfMonth}, {"fi", fi.New, dayDotMonth},
	{"fr", fr.New, dayMonth}, {"it", it.New, dayMonth}, {"nb", nb.New, dayDotMonth}, {"nl", nl.New, dayMonth}, {"pl", pl.New, dayMonth},
	{"pt", pt.New, dayOfMonth}, {"sv", sv.New, dayMonth},
}

// DateKeys lists the languages in which dates can be written.
func DateKeys() []string {
	var keys []string
	for _, d := range allDates {
		keys = append(keys, d.key)
	}
	return keys
}

// DatesIn finds the form of dates by a key of DateKeys; letter case does not count.
func DatesIn(key string) (Dates, bool) {
	for i := range allDates {
		if strings.EqualFold(allDates[i].key, key) {
			return Dates(i), true
		}
	}
	return 0, false
}

// weekday writes a short name of the day: "Thu", "Do".
func (d Dates) weekday(date forecast.Date) string {
	if names := allDates[d].names; names != nil {
		return strings.TrimSuffix(names().WeekdayAbbreviated(date.Weekday()), ".")
	}
	return date.Weekday().String()[:3]
}

func (d Dates) month(date forecast.Date) string {
	if names := allDates[d].names; names != nil {
		return names().MonthWide(date.Month)
	}
	return date.Month.String()
}

// day writes a date with its weekday.
func (d Dates) day(date forecast.Date) string {
	format := [...]string{dayMonth: "%[1]s %[2]d %[3]s", dayDotMonth: "%[1]s %[2]d. %[3]s", dayOfMonth: "%[1]s %[2]d de %[3]s", monthDay: "%[1]s %[3]s %[2]d"}[allDates[d].form]
	return fmt.Sprintf(format, d.weekday(date), date.Day, d.month(date))
}
