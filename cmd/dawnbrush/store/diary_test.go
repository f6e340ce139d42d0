package store_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// clock gives a time that moves on by a second at every look.
func clock() func() time.Time {
	t := time.Date(2026, 7, 16, 5, 0, 0, 0, time.UTC)
	return func() time.Time {
		t = t.Add(time.Second)
		return t
	}
}

func open(t *testing.T, path string) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), path, store.Options{Now: clock()})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

func fresh(t *testing.T) *store.Store {
	t.Helper()
	return open(t, filepath.Join(t.TempDir(), "garden.db"))
}

var day = forecast.Date{Year: 2026, Month: 7, Day: 16}

func remark(text string) memory.Entry {
	return memory.Entry{Date: day, Kind: memory.Remark, Planting: "north", Text: text}
}

// texts gives the current remarks.
func texts(t *testing.T, s *store.Store) (out []string) {
	t.Helper()
	list, err := s.Entries(context.Background(), store.Filter{Kinds: []memory.Kind{memory.Remark}})
	require.NoError(t, err)
	for _, e := range list {
		out = append(out, e.Text)
	}
	return out
}

func TestAddAmendRemoveUndo(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	a, err := s.AddEntry(ctx, remark("a"))
	require.NoError(t, err)
	assert.NotEmpty(t, a.ID)
	assert.False(t, a.Recorded.IsZero())
	b, err := s.Amend(ctx, a.ID, remark("b"))
	require.NoError(t, err)
	assert.Equal(t, a.ID, b.Replaces)
	assert.Greater(t, b.ID, a.ID, "identities sort by when they were recorded")
	assert.Equal(t, []string{"b"}, texts(t, s))

	var superseded *store.SupersededError
	_, err = s.Amend(ctx, a.ID, remark("c"))
	require.ErrorAs(t, err, &superseded)
	assert.Equal(t, b.ID, superseded.By)
	_, err = s.Remove(ctx, b.ID)
	require.NoError(t, err)
	assert.Empty(t, texts(t, s))
	_, err = s.Remove(ctx, b.ID)
	require.ErrorAs(t, err, &superseded)
	assert.True(t, superseded.Removed)

	for _, want := range []struct {
		what store.Action
		left []string
	}{{store.Removed, []string{"b"}}, {store.Amended, []string{"a"}}, {store.Added, nil}} {
		u, err := s.Undo(ctx)
		require.NoError(t, err)
		assert.Equal(t, want.what, u.What)
		assert.Equal(t, want.left, texts(t, s))
	}
	_, err = s.Undo(ctx)
	assert.ErrorIs(t, err, store.ErrNothingToUndo)

	versions, err := s.History(ctx, b.ID)
	require.NoError(t, err)
	all, err := s.All(ctx)
	require.NoError(t, err)
	assert.Equal(t, all, versions, "one entry, and nothing of it was lost")
	assert.Len(t, all, 6)
}

func TestFilter(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	for i, kind := range []memory.Kind{memory.Remark, memory.Rain, memory.Remark} {
		for _, planting := range []string{"north", "south"} {
			_, err := s.AddEntry(ctx, memory.Entry{Date: day.AddDays(-i), Kind: kind, Planting: planting})
			require.NoError(t, err)
		}
	}
	for _, c := range []struct {
		f    store.Filter
		want int
	}{
		{store.Filter{}, 6},
		{store.Filter{From: day.AddDays(-1)}, 4},
		{store.Filter{To: day.AddDays(-1)}, 4},
		{store.Filter{From: day.AddDays(-1), To: day.AddDays(-1)}, 2},
		{store.Filter{Kinds: []memory.Kind{memory.Rain}}, 2},
		{store.Filter{Kinds: memory.Kinds(), Planting: "south"}, 3},
		{store.Filter{Planting: "sou"}, 0},
	} {
		list, err := s.Entries(ctx, c.f)
		require.NoError(t, err)
		assert.Len(t, list, c.want, "%+v", c.f)
		assert.True(t, slices.IsSortedFunc(list, func(a, b memory.Entry) int { return a.Date.DaysSince(b.Date) }))
	}
}

func TestEntriesThatCannotBeKept(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	kept, err := s.AddEntry(ctx, remark("a"))
	require.NoError(t, err)
	for name, e := range map[string]memory.Entry{
		"kind":     {Date: day, Kind: "recipe"},
		"no date":  {Kind: memory.Remark},
		"no day":   {Date: forecast.Date{Year: 2026, Month: 2, Day: 30}, Kind: memory.Remark},
		"no text":  {Date: day, Kind: memory.Remark, Text: "\xff"},
		"zero":     {Date: day, Kind: memory.Remark, Text: "a\x00b"},
		"long":     {Date: day, Kind: memory.Remark, Text: strings.Repeat("x", 10_001)},
		"replaces": {Date: day, Kind: memory.Remark, Replaces: kept.ID},
		"removed":  {Date: day, Kind: memory.Remark, Removed: true},
		"year":     {Date: day, Kind: memory.Remark, At: time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC)},
		"same id":  {ID: kept.ID, Date: day, Kind: memory.Remark},
	} {
		var fault *store.EntryError
		_, err := s.AddEntry(ctx, e)
		require.ErrorAs(t, err, &fault, name)
		assert.NotEmpty(t, fault.Hint())
	}
	var unknown *store.UnknownEntryError
	_, err = s.Amend(ctx, "nowhere", remark("b"))
	require.ErrorAs(t, err, &unknown)
	_, err = s.Remove(ctx, "nowhere")
	require.ErrorAs(t, err, &unknown)
	_, err = s.History(ctx, "nowhere")
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, []string{"a"}, texts(t, s))
	_, err = s.Undo(ctx)
	require.NoError(t, err, "what was refused is no action")
	assert.Empty(t, texts(t, s))
}

func anyValue() *rapid.Generator[forecast.Value] {
	return rapid.Custom(func(t *rapid.T) forecast.Value {
		if rapid.Bool().Draw(t, "known") {
			return forecast.Known(rapid.Float64().Draw(t, "value"))
		}
		return forecast.Value{}
	})
}

func anyDate() *rapid.Generator[forecast.Date] {
	return rapid.Custom(func(t *rapid.T) forecast.Date {
		return forecast.Date{Year: 1970, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 60_000).Draw(t, "day"))
	})
}

func anyTime() *rapid.Generator[time.Time] {
	return rapid.Custom(func(t *rapid.T) time.Time {
		return time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "seconds"), rapid.Int64Range(0, 999_999_999).Draw(t, "ns")).UTC()
	})
}

func anyWord() *rapid.Generator[string] {
	return rapid.StringN(0, 30, 200).Filter(func(s string) bool { return utf8.ValidString(s) && !strings.ContainsRune(s, 0) })
}

// anyEntry draws an entry of any content; it need make no sense in a garden.
func anyEntry() *rapid.Generator[memory.Entry] {
	return rapid.Custom(func(t *rapid.T) memory.Entry {
		e := memory.Entry{Recorded: anyTime().Draw(t, "recorded"), Date: anyDate().Draw(t, "date"), Kind: rapid.SampledFrom(memory.Kinds()).Draw(t, "kind"),
			Planting: anyWord().Draw(t, "planting"), Group: anyWord().Draw(t, "group"), By: anyWord().Draw(t, "by"), Sex: anyWord().Draw(t, "sex"),
			On: rapid.Bool().Draw(t, "on"), Product: anyWord().Draw(t, "product"), Text: anyWord().Draw(t, "text")}
		if rapid.Bool().Draw(t, "at known") {
			e.At = anyTime().Draw(t, "at")
		}
		if rapid.Bool().Draw(t, "flowers on known") {
			e.FlowersOn = anyDate().Draw(t, "flowers on")
		}
		for _, v := range []*forecast.Value{&e.Male, &e.Female, &e.Count, &e.Of, &e.Minutes, &e.Flowers, &e.Visits, &e.Amount, &e.Weight, &e.Misshapen, &e.Interval} {
			*v = anyValue().Draw(t, "value")
		}
		return e
	})
}

// 10,000 random entries, a hundred at a time, come back exactly: from the store,
// from its export as JSON lines, and from another store that took the export in.
// A few of each hundred are added one by one, the others as one import.
func TestRoundTrip(t *testing.T) {
	ctx := context.Background()
	a, b := fresh(t), fresh(t)
	var want []memory.Entry
	rapid.Check(t, func(r *rapid.T) {
		before := len(want)
		var batch []memory.Entry
		for i := range 100 {
			e := anyEntry().Draw(r, "entry")
			if i < 3 {
				kept, err := a.AddEntry(ctx, e)
				if e.ID = kept.ID; err != nil || e != kept {
					r.Fatalf("%v: %+v was kept as %+v", err, e, kept)
				}
				want = append(want, e)
				continue
			}
			e.ID = fmt.Sprintf("other-%d-%d", before, i)
			batch = append(batch, e)
		}
		if m, err := a.Import(ctx, batch); err != nil || m.Added != len(batch) {
			r.Fatal(m, err)
		}
		want = append(want, batch...)
		var lines bytes.Buffer
		for _, e := range want[before:] {
			if err := json.NewEncoder(&lines).Encode(e); err != nil {
				r.Fatal(err)
			}
		}
		var read []memory.Entry
		for in := json.NewDecoder(&lines); in.More(); {
			var e memory.Entry
			if err := in.Decode(&e); err != nil {
				r.Fatal(err)
			}
			read = append(read, e)
		}
		if m, err := b.Import(ctx, read); err != nil || m.Added != 100 {
			r.Fatal(m, err)
		}
		if m, err := b.Import(ctx, read); err != nil || m.Added != 0 || m.Known != 100 {
			r.Fatal(m, err)
		}
	})
	for _, s := range []*store.Store{a, b} {
		got, err := s.All(ctx)
		require.NoError(t, err)
		assert.True(t, slices.Equal(want, got), "a store gives back others")
	}
	assert.GreaterOrEqual(t, len(want), 10_000)
}

// A model of the diary, a plain list of states, and the store take the same
// random actions; undoing goes back through the same states.
func TestUndoGoesBackStepByStep(t *testing.T) {
	ctx := context.Background()
	dir, n := t.TempDir(), 0
	rapid.Check(t, func(r *rapid.T) {
		n++
		s := open(t, filepath.Join(dir, fmt.Sprintf("%d.db", n)))
		defer s.Close()
		now := func() []string { return sortedTexts(r, s) }
		states := [][]string{nil}
		for i := range rapid.IntRange(1, 12).Draw(r, "actions") {
			list, err := s.Entries(ctx, store.Filter{})
			if err != nil {
				r.Fatal(err)
			}
			what := rapid.IntRange(0, 4).Draw(r, "what")
			switch {
			case what == 4 && len(states) > 1:
				_, err = s.Undo(ctx)
				states = states[:len(states)-1]
				if err != nil || !slices.Equal(states[len(states)-1], now()) {
					r.Fatalf("undo: %v, %v instead of %v", err, now(), states[len(states)-1])
				}
				continue
			case what == 3:
				other := remark(fmt.Sprintf("import %d", i))
				other.ID, other.Recorded = fmt.Sprintf("x%d", i), time.Now()
				amended := other
				amended.ID, amended.Replaces, amended.Text = fmt.Sprintf("y%d", i), other.ID, fmt.Sprintf("import %d amended", i)
				batch := []memory.Entry{other, amended}
				if len(list) > 0 { // another file amended an entry of this one
					rival := remark(fmt.Sprintf("rival %d", i))
					rival.ID, rival.Recorded, rival.Replaces = fmt.Sprintf("z%d", i), time.Now(), rapid.SampledFrom(list).Draw(r, "of").ID
					batch = append(batch, rival)
				}
				_, err = s.Import(ctx, batch)
			case what == 2 && len(list) > 0:
				_, err = s.Remove(ctx, rapid.SampledFrom(list).Draw(r, "removed").ID)
			case what == 1 && len(list) > 0:
				_, err = s.Amend(ctx, rapid.SampledFrom(list).Draw(r, "amended").ID, remark(fmt.Sprintf("amended %d", i)))
			default:
				_, err = s.AddEntry(ctx, remark(fmt.Sprintf("added %d", i)))
			}
			if err != nil {
				r.Fatal(err)
			}
			states = append(states, now())
		}
		for len(states) > 1 {
			states = states[:len(states)-1]
			if _, err := s.Undo(ctx); err != nil || !slices.Equal(states[len(states)-1], now()) {
				r.Fatalf("undo: %v, %v instead of %v", err, now(), states[len(states)-1])
			}
		}
		if _, err := s.Undo(ctx); !errors.Is(err, store.ErrNothingToUndo) {
			r.Fatal(err)
		}
	})
}

func sortedTexts(r *rapid.T, s *store.Store) (out []string) {
	list, err := s.Entries(context.Background(), store.Filter{})
	if err != nil {
		r.Fatal(err)
	}
	for _, e := range list {
		out = append(out, e.Text)
	}
	slices.Sort(out)
	return out
}

// Two people write on in copies of one diary; the merge keeps what both wrote and
// names what they amended apart.
func TestMergeOfTwoFiles(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	a := open(t, filepath.Join(dir, "a.db"))
	both, err := a.AddEntry(ctx, remark("both"))
	require.NoError(t, err)
	gone, err := a.AddEntry(ctx, remark("gone"))
	require.NoError(t, err)
	nobody, err := a.AddEntry(ctx, remark("removed by both, which is no conflict"))
	require.NoError(t, err)
	require.NoError(t, a.Backup(ctx, filepath.Join(dir, "b.db")))
	b := open(t, filepath.Join(dir, "b.db"))
	mine, err := a.Amend(ctx, both.ID, remark("mine"))
	require.NoError(t, err)
	theirs, err := b.Amend(ctx, both.ID, remark("theirs"))
	require.NoError(t, err)
	_, err = b.Remove(ctx, gone.ID)
	require.NoError(t, err)
	for _, s := range []*store.Store{a, b} {
		_, err = s.Remove(ctx, nobody.ID)
		require.NoError(t, err)
	}
	_, err = b.AddEntry(ctx, remark("new"))
	require.NoError(t, err)

	all, err := b.All(ctx)
	require.NoError(t, err)
	m, err := a.Import(ctx, all)
	require.NoError(t, err)
	assert.Equal(t, 4, m.Added)
	assert.Equal(t, 3, m.Known)
	assert.Empty(t, m.Missing)
	require.Len(t, m.Conflicts, 1)
	assert.Equal(t, both, m.Conflicts[0].Entry)
	assert.ElementsMatch(t, []memory.Entry{mine, theirs}, m.Conflicts[0].Versions)
	assert.ElementsMatch(t, []string{"mine", "theirs", "new"}, texts(t, a))

	_, err = a.Undo(ctx)
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"mine", "gone"}, texts(t, a))
}

func TestImportIsAllOrNothing(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	entry := func(id, replaces string) memory.Entry {
		e := remark(id)
		e.ID, e.Replaces, e.Recorded = id, replaces, time.Now()
		return e
	}
	noDate := entry("b", "")
	noDate.Date = forecast.Date{}
	_, err := s.Import(ctx, []memory.Entry{entry("a", ""), noDate, entry("", ""), entry("c", "d"), entry("d", "c"), entry("e", "e")})
	require.Error(t, err)
	for _, words := range []string{"entry b cannot be kept: it has no date", "no identity", "in a ring", "replaces itself"} {
		assert.Contains(t, err.Error(), words)
	}
	assert.Empty(t, texts(t, s))

	// A ring across what is here and what comes.
	m, err := s.Import(ctx, []memory.Entry{entry("p", "q")})
	require.NoError(t, err)
	assert.Equal(t, []string{"q"}, m.Missing, "what it replaces may come later")
	_, err = s.Import(ctx, []memory.Entry{entry("q", "p")})
	require.ErrorContains(t, err, "in a ring")

	// One identity, two contents.
	other := entry("p", "q")
	other.Text = "another"
	_, err = s.Import(ctx, []memory.Entry{other})
	require.ErrorContains(t, err, "another entry has the same identity")
	_, err = s.Import(ctx, []memory.Entry{entry("r", ""), func() memory.Entry { e := entry("r", ""); e.Text = "twice"; return e }()})
	require.ErrorContains(t, err, "another entry has the same identity")
	assert.Equal(t, []string{"p"}, texts(t, s))
}

// Entries of one moment still sort in the order in which they were recorded.
func TestIdentitiesOfOneMoment(t *testing.T) {
	ctx := context.Background()
	now := time.Date(2026, 7, 16, 5, 0, 0, 0, time.UTC)
	s, err := store.Open(ctx, filepath.Join(t.TempDir(), "garden.db"), store.Options{Now: func() time.Time { return now }})
	require.NoError(t, err)
	defer s.Close()
	last := ""
	for range 300 {
		e, err := s.AddEntry(ctx, remark("a"))
		require.NoError(t, err)
		require.Greater(t, e.ID, last)
		last = e.ID
	}
	now = now.Add(time.Millisecond)
	e, err := s.AddEntry(ctx, remark("a"))
	require.NoError(t, err)
	assert.Greater(t, e.ID, last)
}
