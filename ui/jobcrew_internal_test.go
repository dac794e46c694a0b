package ui

import (
	"testing"

	"seamwright/calc/job"
	"seamwright/calc/length"
	"seamwright/calc/plan"

	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/require"
)

// beside is the field in the row of some words in the Job view.
func (b *bench) beside(words string) refresher {
	b.t.Helper()
	v := b.views[6].(*jobView)
	for i, o := range v.content.Objects {
		if t, ok := o.(*canvas.Text); ok && t.Text == words {
			f, ok := v.content.Objects[i+1].(refresher)
			require.True(b.t, ok, "a field stands beside %q", words)
			return f
		}
	}
	require.Failf(b.t, "no such field", "%q", words)
	return nil
}

// Way in, crew and yard are set where the rest of the job is, shape the plan at once, and are undone like any edit.
func TestCrewWayInAndYardAreSetInTheWindow(t *testing.T) {
	b := newBench(t, oneRoom)
	b.do("tab-Job")
	before := string(b.model.Doc.Source())
	offered := func(long, wide length.Length) bool {
		b.settle()
		return b.limit(long, wide) == plan.NoLimit
	}
	const foot = length.Foot
	require.True(t, offered(12*foot, 4*foot))

	require.NoError(t, b.beside("Longest sheet").(*entry).commit("10'"))
	require.False(t, offered(12*foot, 4*foot))
	require.True(t, offered(10*foot, 4*foot))
	require.Equal(t, job.Crew{Known: true, Longest: 10 * foot}, b.model.Doc.Job().Site.Crew)
	require.Equal(t, plan.LimitCrew, b.limit(12*foot, 4*foot))

	require.NoError(t, b.beside("Heaviest sheet").(*entry).commit("55 lb")) // a 4x8 of 1.6 psf weighs 51.2 lb
	require.False(t, offered(10*foot, 4*foot))
	require.True(t, offered(8*foot, 4*foot))
	require.Error(t, b.beside("Heaviest sheet").(*entry).commit("heavy"))
	require.Equal(t, "55 lb", b.beside("Heaviest sheet").(*entry).show())

	b.beside("A lifting device is at hand").(*choiceField).SetSelected("yes")
	require.True(t, b.model.Doc.Job().Site.Crew.Lift)
	b.beside("Keep to what the crew carries").(*choiceField).SetSelected("no")
	require.True(t, offered(12*foot, 4*foot))
	require.Equal(t, job.Crew{}, b.model.Doc.Job().Site.Crew)

	require.NoError(t, b.beside("Corridor").(*entry).commit(`36"`))
	require.NoError(t, b.beside("Corridor round the corner").(*entry).commit(`36"`)) // 36 x 2^(3/2) = 101.8 in round the corner
	require.False(t, offered(10*foot, 4*foot))
	require.Equal(t, plan.LimitWay, b.limit(10*foot, 4*foot))

	v := b.views[6].(*jobView)
	v.parts[2].Tapped(nil)
	b.soldButton("Gypsum board 1/2 in", b.size(8*foot, 4*foot)).Tapped(nil)
	b.settle()
	require.Equal(t, plan.LimitYard, b.limit(8*foot, 4*foot))

	for range 7 {
		b.do("undo")
	}
	b.settle()
	require.Equal(t, before, string(b.model.Doc.Source()))
	require.True(t, offered(12*foot, 4*foot))
}

// soldButton says in the price list whether the yard has a size of a product.
func (b *bench) soldButton(product, size string) *button {
	b.t.Helper()
	of := ""
	var at bool // past the size's words
	for _, o := range b.views[6].(*jobView).content.Objects {
		switch o := o.(type) {
		case *canvas.Text:
			if b.model.Doc.Job().Product(productNamed(b.model.Doc.Job(), o.Text)) != nil {
				of = o.Text
			}
			at = of == product && (o.Text == size || at)
		case *button:
			if at {
				return o
			}
		}
	}
	require.Failf(b.t, "no such button", "%s %s", product, size)
	return nil
}

func productNamed(j *job.Job, name string) string {
	for _, p := range j.Products {
		if p.Name == name {
			return p.ID
		}
	}
	return ""
}

// limit is what keeps a size of the usual board from being bought.
func (b *bench) limit(long, wide length.Length) plan.Limit {
	for _, o := range b.model.Plan.Sizes {
		if o.Product == "gyp-12" && o.Size == [2]length.Length{long, wide} {
			return o.Limit
		}
	}
	return plan.NoLimit
}
