package job

// Figure is an adjustable number of the trade. Each stage of the calculation declares its own beside the rule
// that uses them; the user's values stand in Job.Figures.
type Figure struct {
	ID     string // e.g. "tape-per-roll"
	Value  float64
	Unit   string
	What   string // one short sentence
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

// Told is the figure's source with its status, as rows of the takeoff and the sequence show it.
func (f Figure) Told() string {
	if f.Source == "" {
		return string(f.Status)
	}
	return f.Source + " (" + string(f.Status) + ")"
}
