package calc

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/memo"
	"seamwright/calc/plan"
)

// What a room adds goes by how it hangs and by its returns; which sheets these are cut from is left out on purpose.
func TestShareGoesByWhatHangs(t *testing.T) {
	key := func(hung string, strips ...plan.Return) memo.Key {
		return shareKey(&memo.Writer{}, memo.Of(hung), &plan.Plan{Returns: strips})
	}
	head := plan.Return{ID: "A-d-head", Sheet: "S002"}
	before := key("a", head)
	require.Equal(t, before, key("a", head))
	require.NotEqual(t, before, key("b", head))
	require.NotEqual(t, before, key("a"))
	larger, moved := head, head
	larger.Size[0], moved.Sheet = 1, "S010"
	require.NotEqual(t, before, key("a", larger))
	require.Equal(t, before, key("a", moved))
}
