package document_test

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"
	"seamwright/assets/words"
	"seamwright/calc"
	"seamwright/planner"
	"seamwright/scene/document"
)

// request plans a sample.
func request(t *testing.T) document.Request {
	d, err := planner.Parse("sample", assets.KilnYardStudio)
	require.NoError(t, err)
	p, err := calc.Prompt(context.Background(), d.Job(), nil)
	require.NoError(t, err)
	return document.Request{Job: d.Job(), Plan: p, Voice: words.In(words.English, words.Units{Imperial: true, Currency: "USD"})}
}

func TestKindsAreFoundByTheirID(t *testing.T) {
	for _, k := range document.Kinds() {
		found, ok := document.Find(k.ID)
		require.True(t, ok)
		require.Equal(t, k.Name, found.Name, "no two kinds share the id %s", k.ID)
		require.Equal(t, byte('.'), k.Ending[0])
	}
	_, ok := document.Find("nothing of the kind")
	require.False(t, ok)
}

func TestSameRequestSameBytesAndCancelledNone(t *testing.T) {
	r := request(t)
	for _, k := range document.Kinds() {
		var one, two, none bytes.Buffer
		require.NoError(t, k.Write(context.Background(), &one, r), k.ID)
		require.NoError(t, k.Write(context.Background(), &two, r), k.ID)
		require.NotZero(t, one.Len())
		require.True(t, bytes.Equal(one.Bytes(), two.Bytes()), k.ID)
		over, cancel := context.WithCancel(context.Background())
		cancel()
		require.ErrorIs(t, k.Write(over, &none, r), context.Canceled, k.ID)
		require.Zero(t, none.Len(), k.ID)
	}
}
