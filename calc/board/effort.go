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

// budget is the work of an effort.
type budget struct {
	schemes  int   // of a zone that are looked into: the likeliest first
	own      int   // tallies for each zone of a group, for the aim of the project
	others   int   // and for the other aims, which start from what was found for it
	nodes    int   // partial layouts that the exact stage looks at
	layouts  int   // and whole ones that it weighs
	attains  bool  // fewer sheets than the search found are asked for
	piece    int64 // nesting of one group, for each of its pieces
	leftover int64 // nesting of a single group, or of what is left over between groups
}

var budgets = [...]budget{
	Full:   {schemes: 4*schemesKept + 2, own: 100, others: 100, nodes: 40_000, layouts: 1500, attains: true, piece: 1000, leftover: 200_000},
	Prompt: {schemes: 3, own: 100, others: 10, nodes: 4_000, layouts: 150, piece: 100, leftover: 10_000},
}

func (e Effort) budget() *budget { return &budgets[e] }
