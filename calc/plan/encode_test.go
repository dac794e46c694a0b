package plan_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/length"
	"seamwright/calc/money"
	"seamwright/calc/plan"
)

// A finding has the kind and the values of its message beside it, a task an object of what its sentences tell; lengths are
// millimetres as elsewhere, and the values keep their order.
func TestFactsStandBesideTheirSentences(t *testing.T) {
	say := func(f plan.Fact) string { return "<" + f.Kind + ">" }
	var b bytes.Buffer
	require.NoError(t, plan.Write(&b, map[string]any{
		"checks": []plan.Check{{Rule: "stagger", Level: plan.Error, Where: "room/south", Source: plan.Practice(),
			Says: plan.Tell("check.stagger", "one", length.Foot, "other", 2*length.Foot, "apart", plan.Run(length.Foot), "required", 16*length.Inch)}},
		"progress": plan.Progress{LeftToBuy: money.Money(1250), Basis: plan.Fact{}},
	}, say))
	require.JSONEq(t, `{"checks": [{"rule": "stagger", "level": "error", "where": "room/south", "at": [0, 0],
		"kind": "check.stagger", "values": {"one": 304.8, "other": 609.6, "apart": 304.8, "required": 406.4}, "message": "<check.stagger>",
		"source": "<source.practice>", "facts": {"source": {"kind": "source.practice", "values": {}}}}],
		"progress": {"tasks": 0, "done": 0, "estimated_h": 0, "actual_h": 0, "left_h": 0, "outlook_h": 0, "left_to_buy": 12.5, "basis": "<>", "first_finish": ""}}`, b.String())
	require.Less(t, bytes.Index(b.Bytes(), []byte(`"one"`)), bytes.Index(b.Bytes(), []byte(`"other"`)))
}

func TestFactsFollowEachOtherAndAreCompared(t *testing.T) {
	a, b := plan.Tell("a", "at", length.Foot), plan.Tell("b", "of", []plan.Fact{plan.Verbatim("x")})
	both := a.Also(b).Also(plan.Fact{}).Also(a)
	require.Equal(t, []plan.Fact{a, b, a}, both.Of("parts"))
	require.True(t, both.Tells(b))
	require.False(t, both.Tells(plan.Tell("c")))
	require.True(t, a.Equal(plan.Tell("a", "at", length.Foot)))
	require.False(t, a.Equal(plan.Tell("a", "at", length.Inch)))
	require.Equal(t, a, plan.Fact{}.Plus(a))
	short := a.Also(b)
	_, _ = short.Also(plan.Tell("one")), short.Also(plan.Tell("two"))
	require.Equal(t, []plan.Fact{a, b}, short.Of("parts"), "what is told behind a fact leaves it as it was")
}
