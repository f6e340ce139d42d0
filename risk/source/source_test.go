package source

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func bibliography(t *testing.T) *Bibliography {
	t.Helper()
	bib, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return bib
}

func TestBibliography(t *testing.T) {
	bib := bibliography(t)
	keys := bib.Keys()
	if len(keys) < 100 {
		t.Errorf("only %d entries", len(keys))
	}
	for i, key := range keys {
		if i > 0 && keys[i-1] >= key {
			t.Errorf("%s stands out of order", key)
		}
		if e, ok := bib.Get(key); !ok || e.Citation == "" {
			t.Errorf("%s has no citation", key)
		}
	}
	for _, key := range []string{KeyChosen, KeyCommonPractice, KeyMemory, "FAO56"} {
		if _, ok := bib.Get(key); !ok {
			t.Errorf("%s is missing", key)
		}
	}
	if _, ok := bib.Get("Nobody99"); ok {
		t.Error("a key nobody entered was found")
	}
}

func TestAdd(t *testing.T) {
	bib := bibliography(t)
	n := len(bib.Keys())
	same, _ := bib.Get("FAO56")
	merged, err := bib.Add(same, Entry{Key: "Moon01", Citation: "Invented"})
	if err != nil {
		t.Fatal(err)
	}
	if len(merged.Keys()) != n+1 || len(bib.Keys()) != n {
		t.Errorf("merged %d, before %d, was %d", len(merged.Keys()), len(bib.Keys()), n)
	}
	_, err = bib.Add(Entry{Key: "FAO56", Citation: "other text"}, Entry{Key: "", Citation: "x"}, Entry{Key: "Empty99"})
	for _, want := range []string{"FAO56 is already cited with other text", `source key ""`, "Empty99 has no citation"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
}

func TestParse(t *testing.T) {
	for text, want := range map[string]string{
		`[{"key":"A1","citation":"x","color":"y"}]`:                   "color",
		`[{"key":"A1","citation":"x"},{"key":"A1","citation":"y"}]`:   "other text",
		`[{"key":"A1","citation":"x","status":"seen"}]`:               `status "seen"`,
		`[{"key":"A1","citation":"x"}] []`:                            "after top-level value",
		`[{"key":"A 1","citation":"x"},{"key":"B2","citation":""}]`:   "B2 has no citation",
		`[{"key":"1A","citation":"x"}]`:                               "letters and digits",
		`[{"key":"A1","citation":"x","status":"read"}, {"key":"B1"}]`: "B1 has no citation",
	} {
		if _, err := Parse([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q", text, err, want)
		}
	}
}

func TestStatusOrder(t *testing.T) {
	list := Statuses()
	for i, s := range list {
		if back, err := ParseStatus(s.String()); err != nil || back != s {
			t.Errorf("%v: %v, %v", s, back, err)
		}
		if i > 0 && list[i-1] <= s {
			t.Errorf("%v is not stronger than %v", list[i-1], s)
		}
	}
	if Status(0).Valid() || Status(99).Valid() {
		t.Error("a status without word is valid")
	}
	if _, err := Status(0).MarshalText(); err == nil {
		t.Error("no status was written as a word")
	}
}

func TestParamJSON(t *testing.T) {
	p := Param{Name: "x", Unit: "kPa", Key: KeyChosen, Status: Chosen, Note: "why"}
	for want, change := range map[string]func(*Param){
		`{"name":"x","unit":"kPa","source":"chosen","status":"chosen","note":"why","value":0}`: func(*Param) {},
		`{"name":"x","range":{"low":0,"high":2},"unit":"kPa","source":"chosen","status":"chosen","note":"why"}`: func(p *Param) {
			p.Kind, p.Range = Span, &Interval{0, 2}
		},
	} {
		q := p
		change(&q)
		got, err := json.Marshal(q)
		if err != nil || string(got) != want {
			t.Errorf("%s, %v, want %s", got, err, want)
		}
	}
}

func TestParamValidate(t *testing.T) {
	bib, err := (&Bibliography{}).Add(
		Entry{Key: "Seen01", Citation: "a"}, Entry{Key: "Told02", Citation: "b", Status: Quoted},
		Entry{Key: KeyChosen, Citation: "c"}, Entry{Key: KeyMemory, Citation: "d"}, Entry{Key: KeyCommonPractice, Citation: "e"})
	if err != nil {
		t.Fatal(err)
	}
	good := Param{Name: "x", Value: 3, Unit: "h", Key: "Seen01", Where: "p 3", Status: Read, Range: &Interval{2, 4}}
	if err := good.Validate(bib); err != nil {
		t.Errorf("a sound number is refused: %v", err)
	}
	two := 2.0
	for want, change := range map[string]func(*Param){
		"unit is missing":                  func(p *Param) { p.Unit = "" },
		"source is missing":                func(p *Param) { p.Key = "" },
		`"Nobody99" is not in`:             func(p *Param) { p.Key = "Nobody99" },
		"status is missing":                func(p *Param) { p.Status = 0 },
		"place in Seen01 is missing":       func(p *Param) { p.Where = "" },
		"better than quoted":               func(p *Param) { p.Key = "Told02" },
		"chosen value needs a note":        func(p *Param) { p.Key, p.Status = KeyChosen, Chosen },
		"derived value needs a note":       func(p *Param) { p.Status = Derived },
		"goes with status memory":          func(p *Param) { p.Key = KeyMemory },
		"status common-practice goes with": func(p *Param) { p.Status = CommonPractice },
		"not finite":                       func(p *Param) { p.Value, p.Range = math.NaN(), nil },
		"outside its own range":            func(p *Param) { p.Value = 5 },
		"low 4 is above high 2":            func(p *Param) { p.Kind, p.Range = Span, &Interval{4, 2} },
		"range is missing":                 func(p *Param) { p.Kind, p.Range = Span, nil },
		"at least two points":              func(p *Param) { p.Kind, p.Curve = Points, [][2]float64{{1, 1}} },
		"stand at 1":                       func(p *Param) { p.Kind, p.X, p.Curve = Points, "h", [][2]float64{{1, 1}, {1, 2}} },
		"text is missing":                  func(p *Param) { p.Kind = Words },
		"others 1: neither value":          func(p *Param) { p.Others = []Alternative{{Key: "Seen01", Where: "p 1", Status: Read}} },
		"others 1: status read is better": func(p *Param) {
			p.Others = []Alternative{{Value: &two, Key: "Told02", Where: "p 1", Status: Read}}
		},
	} {
		p := good
		change(&p)
		if err := p.Validate(bib); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
}
