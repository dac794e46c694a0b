package job

// Figure is an adjustable number of the trade; what it is of stands in the catalog of words, under figure. and its id. Each stage of the calculation declares its own beside the rule
// that uses them; the user's values stand in Job.Figures.
type Figure struct {
	ID     string // e.g. "tape-per-roll"
	Value  float64
	Unit   string
	Source string
	Status Status
}

// Status says how well a figure is known.
type Status string

// How a figure came to be here.
const (
	Read     Status = "read"
	Memory   Status = "from memory"
	Practice Status = "common practice, no source"
	Derived  Status = "derived"
	Entered  Status = "as entered"
)

// Of is the figure's value in this job: the user's own, else the shipped one.
func (f Figure) Of(j *Job) float64 {
	if v, ok := j.Figures[f.ID]; ok {
		return v
	}
	return f.Value
}
