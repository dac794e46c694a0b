package draft

import (
	"seamwright/assets/words"
	"seamwright/calc/job"
)

// voice is what a drawing speaks: what it is given, else English in the project's units.
func voice(v *words.Voice, j *job.Job) *words.Voice {
	if v != nil {
		return v
	}
	return words.In(words.English, words.Units{Imperial: imperial(j)})
}
