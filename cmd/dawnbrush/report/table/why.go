package table

import (
	"slices"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// sentence is one reason of the day and the plantings it is about.
type sentence struct {
	topic words.Topic
	text  string
	names []string // empty: the whole garden
	tasks int      // how much of the day's work stands for it
}

// why prints the day's flags by topic, those behind the most work first.
func (t *today) why() {
	all := sentences(t.Words, t.d.Garden, t.plan)
	uneven := t.uneven()
	if len(all) == 0 && len(uneven) == 0 {
		return
	}
	t.heading("Why")
	last := words.Topic(words.Topics)
	for _, s := range all {
		label := ""
		if s.topic != last {
			label, last = s.topic.String(), s.topic
		}
		text := s.text
		if len(s.names) > 0 {
			text += " [" + strings.Join(s.names, ", ") + "]"
		}
		t.hanging(t.pad("  "+label, 10), 12, text)
	}
	if len(uneven) > 0 {
		t.hanging(t.pad("  water", 10), 12, t.Uneven(uneven))
	}
}

// sentences says the flags of a day, equal ones once, sorted by topic.
func sentences(w words.Words, g *risk.Garden, plan *risk.DayPlan) []sentence {
	if plan.Day == nil {
		return nil
	}
	var all []sentence
	for i := range plan.Day.Flags {
		f := &plan.Day.Flags[i]
		all = append(all, sentence{topic: words.TopicOf(f.Kind), text: w.Flag(f, nil), tasks: 1})
	}
	for i := range plan.Day.Plantings {
		p := &plan.Day.Plantings[i]
		if p.Bloom == risk.NoBloom || !needsReason(plan, p.Planting) {
			continue
		}
		if groups := words.Visitors(p.Planting.Crop, g.Bees); len(groups) > 0 && p.Planting.Cover != risk.RowCover {
			if out, open := words.HoursOut(p, groups); out < open {
				all = merge(all, sentence{topic: words.TopicBees, text: w.BeesOut(out, open), names: []string{p.Planting.Name}, tasks: working(plan, p.Planting)})
			}
		}
		for j := range p.Flags {
			f := &p.Flags[j]
			if f.Kind == risk.HeatOnBuds || f.Kind == risk.FewAhead {
				continue // told in full under "few females"
			}
			all = merge(all, sentence{topic: words.TopicOf(f.Kind), text: w.Flag(f, p), names: []string{p.Planting.Name}, tasks: working(plan, p.Planting)})
		}
	}
	weight := map[words.Topic]int{}
	for _, s := range all {
		weight[s.topic] = max(weight[s.topic], s.tasks)
	}
	slices.SortStableFunc(all, func(a, b sentence) int {
		if weight[a.topic] != weight[b.topic] {
			return weight[b.topic] - weight[a.topic]
		}
		return int(a.topic) - int(b.topic)
	})
	return all
}

func merge(all []sentence, s sentence) []sentence {
	for i := range all {
		if all[i].text == s.text && len(all[i].names) > 0 {
			if !slices.Contains(all[i].names, s.names[0]) {
				all[i].names = append(all[i].names, s.names...)
				all[i].tasks += s.tasks
			}
			return all
		}
	}
	return append(all, s)
}

// needsReason tells whether a planting is worked on or given up: what is left to
// the bees needs no reason.
func needsReason(plan *risk.DayPlan, p *risk.Planting) bool {
	if working(plan, p) > 0 {
		return true
	}
	for i := range plan.Rest {
		if plan.Rest[i].Planting == p && plan.Rest[i].Kind == risk.NothingToGain {
			return true
		}
	}
	return false
}

// working counts the tasks of a planting that the day's weather asks for.
func working(plan *risk.DayPlan, p *risk.Planting) (n int) {
	for i := range plan.Tasks {
		if plan.Tasks[i].Planting == p && plan.Tasks[i].Kind != risk.LookAtTagged {
			n++
		}
	}
	return n
}
