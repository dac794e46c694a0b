package ui

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"seamwright/assets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// wordsIn are all the words that an object shows.
func wordsIn(o fyne.CanvasObject) (words []string) {
	switch o := o.(type) {
	case *canvas.Text:
		words = append(words, o.Text)
	case *fyne.Container:
		for _, inner := range o.Objects {
			words = append(words, wordsIn(inner)...)
		}
	}
	return words
}

// ledgerSays is what stands beside a name in the ledger.
func (b *bench) ledgerSays(name string) string {
	b.t.Helper()
	words := append(wordsIn(b.ledger.head), wordsIn(b.ledger.body)...)
	at := slices.Index(words, name)
	require.GreaterOrEqual(b.t, at, 0, name)
	return words[at+1]
}

// cardSays are the figures on the card of one answer, as wide as a card is at most: sheets, joints, money.
func (b *bench) cardSays(aim string) []string {
	b.t.Helper()
	a := b.studio.strip.answers
	a.place(fyne.NewSize(1000, answersHeight))
	words := wordsIn(a.cards)
	at := slices.Index(words, capital(aim))
	require.GreaterOrEqual(b.t, at, 0, aim)
	return words[at+1 : at+4]
}

// Each card shows what the ledger shows once that answer is chosen, to the letter, and the one that is lit is the one chosen.
func TestCardsShowWhatTheLedgerShows(t *testing.T) {
	for name, source := range map[string][]byte{"studio": assets.KilnYardStudio, "workshop": assets.LaneWorkshop} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t, string(source))
			promised := map[string][]string{}
			for _, aim := range aims {
				promised[aim] = b.cardSays(aim)
			}
			for _, aim := range aims {
				b.setAim(aim)
				b.settle()
				require.Equal(t, aim, aimWord(b.standing()))
				require.Equal(t, string(b.standing()), b.answerNow().Aim, "the lit card")
				money := amount(b.model.Plan.Cost.Total, b.model.Doc.Job().Currency)
				require.Contains(t, wordsIn(b.ledger.head), money)
				require.Equal(t, []string{
					counted(b.model.Plan.Summary.SheetsBought, "sheet"), b.ledgerSays("Butt joints") + " butt", money,
				}, b.cardSays(aim))
				require.Equal(t, promised[aim], b.cardSays(aim), "what %s promised", aim)
				require.Equal(t, b.ledgerSays("Sheets to buy")+" sheets", b.cardSays(aim)[0])
			}
		})
	}
}
