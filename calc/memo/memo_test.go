package memo_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/memo"
	"seamwright/calc/shape"
)

func TestWhatIsKeptIsNotMadeAgain(t *testing.T) {
	m, made := &memo.Memo{}, 0
	ask := func(m *memo.Memo, k memo.Key) string {
		return memo.Do(m, k, func() string { made++; return "answer" })
	}
	for range 3 {
		require.Equal(t, "answer", ask(m, memo.Of("a")))
	}
	require.Equal(t, 1, made)
	ask(m, memo.Of("b"))
	require.Equal(t, 2, made)
	ask(nil, memo.Of("a"))
	ask(nil, memo.Of("a"))
	require.Equal(t, 4, made, "without a memo everything is made")
}

// The latest results stay where there are many, and no more than twice as many.
func TestTheLatestStay(t *testing.T) {
	m, made := &memo.Memo{Most: 4}, 0
	ask := func(n int) {
		memo.Do(m, memo.Of(n), func() int { made++; return n })
	}
	for n := range 100 {
		ask(n)
	}
	require.Equal(t, 100, made)
	for n := 96; n < 100; n++ {
		ask(n)
	}
	require.Equal(t, 100, made, "the last four are known")
	for n := range 92 {
		ask(n)
	}
	require.Equal(t, 192, made, "the first are not")
}

// What is asked for in every plan stays; what is not goes after 16 plans at most, and not within 8.
func TestWhatIsNotAskedForIsForgotten(t *testing.T) {
	m, made := &memo.Memo{}, map[string]int{}
	ask := func(name string) {
		memo.Do(m, memo.Of(name), func() int { made[name]++; return 0 })
	}
	ask("seldom")
	for range 7 {
		m.Begin()
		ask("always")
	}
	ask("seldom")
	require.Equal(t, 1, made["seldom"])
	for range 16 {
		m.Begin()
		ask("always")
	}
	ask("seldom")
	require.Equal(t, 2, made["seldom"])
	require.Equal(t, 1, made["always"])
}

// Every change of any field of a room gives another key: each field in turn is changed by reflection, to the end.
func TestEveryFieldCounts(t *testing.T) {
	r := job.Room{ID: "r", Corners: []shape.Point{{}, {X: 1}}, Ceiling: &job.Ceiling{Lining: []job.Zone{{Layers: []string{"a"}}}, Boxes: []job.Box{{}}},
		Walls:  []job.Wall{{Backing: &job.Backing{Seams: [][2]shape.Point{{}}}, Openings: []job.Opening{{}}, Pins: []job.Pin{{}}, Framing: job.Framing{Also: []length.Length{1}}}},
		Solids: []job.Solid{{}}}
	before := memo.Of(&r)
	changed := 0
	var walk func(v reflect.Value, name string)
	walk = func(v reflect.Value, name string) {
		old := reflect.New(v.Type()).Elem()
		old.Set(v)
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i), name+"."+v.Type().Field(i).Name)
			}
			return
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem(), name)
				return
			}
			v.Set(reflect.New(v.Type().Elem()))
		case reflect.Array, reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i), name+"[]")
			}
			if v.Kind() == reflect.Array {
				return
			}
			v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
		case reflect.String:
			v.SetString(v.String() + "x")
		case reflect.Float64:
			v.SetFloat(v.Float() + 1)
		case reflect.Bool:
			v.SetBool(!v.Bool())
		default:
			v.SetInt(v.Int() + 1)
		}
		require.NotEqual(t, before, memo.Of(&r), name)
		v.Set(old)
		require.Equal(t, before, memo.Of(&r), name)
		changed++
	}
	walk(reflect.ValueOf(&r).Elem(), "Room")
	require.Greater(t, changed, 80)
}

func TestContentsThatLookAlikeDiffer(t *testing.T) {
	require.NotEqual(t, memo.Of("ab", "c"), memo.Of("a", "bc"))
	require.NotEqual(t, memo.Of([]string{"a"}, []string{}), memo.Of([]string{}, []string{"a"}))
	require.NotEqual(t, memo.Of([]string(nil)), memo.Of([]string{}))
	require.NotEqual(t, memo.Of([]any{1}), memo.Of([]any{int64(1)}), "values of several types")
	require.NotEqual(t, memo.Of([]any{1}), memo.Of([]any{2}))
	require.NotEqual(t, memo.Of(map[string]float64{"a": 1, "b": 2}), memo.Of(map[string]float64{"a": 2, "b": 1}))
	many := map[string]float64{}
	for _, k := range []string{"d", "a", "c", "b"} {
		many[k] = float64(k[0])
	}
	for range 50 {
		require.Equal(t, memo.Of(many), memo.Of(map[string]float64{"a": 'a', "b": 'b', "c": 'c', "d": 'd'}))
	}
	require.Panics(t, func() { memo.Of(func() {}) })
}
