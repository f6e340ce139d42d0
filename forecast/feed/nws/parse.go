package nws

import (
	"bytes"
	"fmt"
	"sort"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/unit"
)

// glance is how much of a document is looked at to recognise it: its head with
// context, identity and outline. [chosen]
const glance = 4096

// Recognise tells whether a document looks like one of this service.
func (Reader) Recognise(doc []byte) bool {
	doc = bytes.TrimLeft(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")), " \t\r\n")
	if len(doc) == 0 || doc[0] != '{' {
		return false
	}
	head := doc[:min(len(doc), glance)]
	if bytes.Contains(head, []byte("api.weather.gov")) {
		return true
	}
	return bytes.Contains(head, []byte(`"updateTime"`)) && bytes.Contains(head, []byte(`"validTimes"`))
}

// Parse reads a raw gridpoint document, however old it is. See feed.Reader.
func (Reader) Parse(doc []byte, now time.Time) (*forecast.Series, error) {
	d, err := decodeGrid(doc)
	if err != nil {
		return nil, err
	}
	return adaptGrid(d, now)
}

func gridFault(cause error, format string, args ...any) error {
	return &feed.DocumentError{What: "grid forecast of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause}
}

func decodeGrid(doc []byte) (*gridDocument, error) {
	var d gridDocument
	if len(bytes.TrimSpace(doc)) == 0 {
		return nil, gridFault(nil, "it is empty")
	}
	if err := decode(doc, &d); err != nil {
		return nil, gridFault(err, "it cannot be read, it may be cut short (%v)", err)
	}
	p := &d.Properties
	switch {
	case bool(d.Features):
		return nil, gridFault(nil, "it is a list, of station reports perhaps")
	case bool(p.Periods):
		return nil, &feed.DocumentError{What: "grid forecast of the " + service,
			Fault:  "it is the forecast in words, without amounts of rain and cloud cover",
			Remedy: "save the document at the address that the points document calls forecastGridData"}
	case len(p.Temperature.Values) == 0:
		return nil, gridFault(nil, "it holds no temperatures")
	}
	return &d, nil
}

// adaptGrid turns the wire form into a series.
func adaptGrid(d *gridDocument, now time.Time) (*forecast.Series, error) {
	p := &d.Properties
	issued, err := parseTime(p.UpdateTime)
	if err != nil {
		return nil, gridFault(err, "it does not say when it was issued: %v", err)
	}
	a := &adapter{props: p, series: &forecast.Series{}}
	ms := mappings()
	layers := make([][]span, len(ms))
	for i, m := range ms {
		layers[i] = a.spans(m.layer(p), m)
	}
	if len(layers[0]) == 0 {
		return nil, gridFault(nil, "none of its temperatures can be read")
	}
	rain := a.spans(&p.RainAmount, rainMapping)
	notes := a.series.Notes
	start, end := hull(layers[0], append(layers[1:], rain)...)
	a.series = forecast.New(start, end)
	a.series.Notes = notes
	a.series.Feed, a.series.Source, a.series.Attribution = Key, sourceName(p.GridID), attribution
	a.series.Issued, a.series.Point = issued, d.point()

	until := layers[0][len(layers[0])-1].end
	for i, m := range ms {
		a.fill(layers[i], m.value)
		a.coverage(m, layers[i], until)
	}
	a.addRain(rain)
	a.coverage(rainMapping, rain, until)
	a.addChances()
	sort.SliceStable(a.series.Blocks, func(i, j int) bool { return a.series.Blocks[i].Start.Before(a.series.Blocks[j].Start) })
	if !now.IsZero() {
		a.cutBlock(now)
	}
	a.clearSpikes()
	a.deriveHumidity()
	if !a.settle() {
		return nil, gridFault(nil, "all its values are unknown")
	}
	a.addDayMax()
	return a.series, nil
}

// deriveHumidity fills in dew point or humidity where one of them is missing.
func (a *adapter) deriveHumidity() {
	nRH, nDew := 0, 0
	for i := range a.series.Hours {
		rh, dew := fillHumidity(&a.series.Hours[i])
		if rh {
			nRH++
		}
		if dew {
			nDew++
		}
	}
	if nRH > 0 {
		a.note("RH", "humidity: worked out from temperature and dew point in %d of %d hours", nRH, len(a.series.Hours))
	}
	if nDew > 0 {
		a.note("DewPoint", "dew point: worked out from temperature and humidity in %d of %d hours", nDew, len(a.series.Hours))
	}
}

// addDayMax keeps the highest temperatures of the days as issued.
func (a *adapter) addDayMax() {
	m := mapping{field: "Temp", words: "highest temperature of the day", quantity: unit.Temperature, lo: minTemp, hi: maxTemp, scale: 1}
	for _, sp := range a.spans(&a.props.MaxTemperature, m) {
		if sp.value.IsKnown() {
			a.series.DayMax = append(a.series.DayMax, forecast.Extreme{Start: sp.start, End: sp.end, Temp: sp.value})
		}
	}
}

func sourceName(office string) string {
	if office == "" {
		return service
	}
	return service + ", office " + office
}

// point gives the middle of the grid cell. Its zone is not in the document.
func (d *gridDocument) point() forecast.Place {
	var p forecast.Place
	p.Lat, p.Lon = d.Geometry.centre()
	if v := d.Properties.Elevation.Value; v.known {
		if conv, err := unit.Converter(unit.Length, d.Properties.Elevation.UnitCode); err == nil {
			p.Elevation = forecast.Within(conv(v.v), minElevation, maxElevation)
		}
	}
	return p
}

// The lowest shore and the highest summit, rounded outwards, in m. [memory]
const minElevation, maxElevation = -500, 9000
