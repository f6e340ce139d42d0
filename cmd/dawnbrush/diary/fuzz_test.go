package diary_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"unicode"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/risk/memory"
)

// Whatever is typed is refused with a form, or understood so that saying it back
// gives the same entry.
func FuzzParse(f *testing.F) {
	for _, form := range diary.Forms() {
		f.Add(form.Example)
	}
	for _, line := range []string{`bees 5min 10 flowers 3 honey bees cucumber`, `set 7/10 by hand of 2026-07-12 zucchini`, `rain 1/2in`, `rain 2,5mm`, `water 20L "whole garden"`,
		`feed "10-10-10" 1lb garden`, `symptom "a" "b"`, `remark "zucchini" zucchini`, `opened female 3 male 2 bed 2`, `picked kg 2 fruit 3 corn`, "buds ٣ zucchini", `set 1 of 2 hand yesterday zucchini`,
		`brushed 0.1e9 zucchini`, `cover on on zucchini`, `bees -1min 1/0 flowers .5 ,5 zucchini`} {
		f.Add(line)
	}
	g := mixed(f)
	f.Fuzz(func(t *testing.T, line string) {
		c := diary.Context{Garden: g, Now: now}
		e, err := diary.Parse(split(line), c)
		if err != nil {
			var refused *diary.Error
			if !errors.As(err, &refused) || refused.Hint() == "" || refused.Message == "" || strings.HasSuffix(refused.Message, ".") && !strings.HasSuffix(line, ".") {
				t.Fatalf("%q is refused without a remedy: %v", line, err)
			}
			return
		}
		if faults := diary.Check(&e, day); len(faults) > 0 {
			t.Fatalf("%q is let through: %v", line, faults[0])
		}
		if said := diary.Say(&e, "us"); strings.ContainsFunc(said, unicode.IsControl) {
			t.Fatalf("%q is said as %q", line, said)
		}
		words := diary.Words(&e)
		back, err := diary.Parse(words, c)
		if err != nil || back != e {
			t.Fatalf("%q said as %q is understood as %+v (%v), want %+v", line, words, back, err, e)
		}
	})
}

// Whatever file is imported is refused with a line for every fault, or gives
// entries that both forms carry exactly.
func FuzzRead(f *testing.F) {
	entries := []memory.Entry{entry(memory.Buds, "zucchini", func(e *memory.Entry) { e.ID, e.Recorded, e.Female = "1", now.UTC(), known(3) }),
		entry(memory.Remark, "", func(e *memory.Entry) { e.ID, e.Recorded, e.Text = "2", now.UTC(), `=a "b", c` })}
	for _, write := range writers {
		var b bytes.Buffer
		if err := write(&b, entries); err != nil {
			f.Fatal(err)
		}
		f.Add(b.Bytes())
	}
	f.Add([]byte("date,kind,planting,count\n2026-07-12,brushed,zucchini,3\n"))
	f.Add([]byte("date,kind\r\n\"2026-07-12\",\"cover\n"))
	f.Add([]byte(`{"id":"1","date":"2026-07-12","kind":"rain","amount":1e999}`))
	g := mixed(f)
	f.Fuzz(func(t *testing.T, doc []byte) {
		k := diary.Known{Garden: g, Today: day}
		got, faults := diary.Read(doc, k)
		lines := bytes.Count(doc, []byte("\n")) + 1
		for _, fault := range faults {
			if fault.Line < 1 || fault.Line > lines || fault.Message == "" || fault.Hint == "" {
				t.Fatalf("a fault without line or remedy: %+v", fault)
			}
		}
		if len(faults) > 0 && got != nil {
			t.Fatal("entries in spite of faults")
		}
		for name, write := range writers {
			var b bytes.Buffer
			if err := write(&b, got); err != nil {
				t.Fatal(name, err)
			}
			back, faults := diary.Read(b.Bytes(), k)
			if len(faults) > 0 && len(got) > 0 {
				t.Fatalf("%s: what was read cannot be read again: %+v", name, faults[0])
			}
			if len(back) != len(got) {
				t.Fatalf("%s: %d entries of %d", name, len(back), len(got))
			}
			for i := range got {
				if back[i] != got[i] {
					t.Fatalf("%s: %+v became %+v", name, got[i], back[i])
				}
			}
		}
	})
}
