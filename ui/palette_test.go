package ui_test

import (
	"image/color"
	"testing"

	"seamwright/scene/draft"
	"seamwright/ui"

	"github.com/stretchr/testify/require"
)

// Ratios from WCAG 2.2, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (controls and graphics 3:1). The colours of
// the drawings are tested where they are defined; these are the ones that the window sets on each other.
func TestPalettesAreReadable(t *testing.T) {
	names := map[string]bool{}
	for _, p := range ui.Palettes() {
		t.Run(p.Name, func(t *testing.T) {
			for name, back := range map[string]color.NRGBA{"ground": p.Ground, "pane": p.Pane} {
				require.GreaterOrEqual(t, draft.Contrast(p.Ink, back), 7.0, "ink on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.Quiet, back), 4.5, "quiet text on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.Accent, back), 4.5, "accent on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.More, back), 4.5, "more on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.Less, back), 4.5, "less on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.Error, back), 4.5, "error on %s", name)
				require.GreaterOrEqual(t, draft.Contrast(p.Caution, back), 3.0, "caution bar on %s", name)
			}
			require.GreaterOrEqual(t, draft.Contrast(p.OnAccent, p.Accent), 4.5)
			require.GreaterOrEqual(t, draft.Contrast(p.Accent, p.AccentBg), 4.5, "selected row")
			require.GreaterOrEqual(t, draft.Contrast(p.Ink, p.AccentBg), 4.5)
			require.GreaterOrEqual(t, draft.Contrast(p.BarInk, p.Bar), 7.0)
			require.GreaterOrEqual(t, draft.Contrast(p.BarQuiet, p.Bar), 4.5)
			require.GreaterOrEqual(t, draft.Contrast(p.OnChip, p.Chip), 7.0, "label at the pointer")
		})
		names[p.Name] = true
	}
	require.Len(t, names, 3, "every look has a name of its own")
}
