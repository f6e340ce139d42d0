package risk

// Value ranks the work of a plan by what doing it is worth, for who tells of a few
// tasks only. It has no unit and is the order in which a full morning keeps its tasks.
func (t *Task) Value() float64 { return t.rank() }
