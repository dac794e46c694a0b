package board

// Effort is how much work an answer may take. Both end at budgets that count work, never time, so each gives the same
// answer on every machine.
type Effort uint8

const (
	// Full is the effort behind what files, documents and commands show.
	Full Effort = iota
	// Prompt is the effort for a lawful answer, with its bound, within a frame: what stands until the full one comes.
	Prompt
)
