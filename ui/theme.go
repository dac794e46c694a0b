package ui

import (
	"image/color"

	"seamwright/assets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// The four type sizes, the grid and the corner of the whole window.
const (
	sizeSmall   float32 = 11
	sizeText    float32 = 13
	sizeHeading float32 = 16
	sizeFigure  float32 = 26
	grid        float32 = 8
	corner      float32 = 3
	// target is the least height of anything that can be clicked (WCAG 2.2, 2.5.8: 24 by 24).
	target float32 = 24
)

// The one type family.
var (
	regular  = fyne.NewStaticResource("regular.ttf", assets.FontRegular)
	semibold = fyne.NewStaticResource("semibold.ttf", assets.FontSemibold)
)

// look is the toolkit's theme made from a palette and the project's own font.
type look struct{ *Palette }

var _ fyne.Theme = (*look)(nil)

// Color answers every colour of the toolkit's widgets from the palette.
func (l *look) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	switch name {
	case theme.ColorNameBackground: // of the window, see pane
		return cleared(l.Pane)
	case theme.ColorNameForeground:
		return l.Ink
	case theme.ColorNameButton, theme.ColorNameInputBackground, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground:
		return l.Pane
	case theme.ColorNameDisabled, theme.ColorNamePlaceHolder:
		return l.Quiet
	case theme.ColorNameDisabledButton:
		return l.Ground
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return l.Accent
	case theme.ColorNameFocus:
		return faded(l.Accent, 0.35)
	case theme.ColorNameHover:
		return faded(l.Ink, 0.07)
	case theme.ColorNamePressed:
		return faded(l.Ink, 0.14)
	case theme.ColorNameSelection:
		return faded(l.Accent, 0.25)
	case theme.ColorNameInputBorder:
		return l.Quiet
	case theme.ColorNameSeparator:
		return l.Hairline
	case theme.ColorNameScrollBar:
		return faded(l.Ink, 0.35)
	case theme.ColorNameScrollBarBackground:
		return color.Transparent
	case theme.ColorNameShadow: // also the veil over the window behind a question
		return faded(l.Bar, 0.3)
	case theme.ColorNameError:
		return l.Error
	case theme.ColorNameWarning:
		return l.Caution
	case theme.ColorNameSuccess:
		return l.Less
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return l.OnAccent
	}
	variant := theme.VariantLight
	if l.Dark {
		variant = theme.VariantDark
	}
	return theme.DefaultTheme().Color(name, variant)
}

// cleared is a colour that the toolkit clears the window with. It divides the parts by 255 times 255 there, where they
// count to 65535: a colour as it is would come out lighter than the same in a picture.
type cleared color.NRGBA

func (c cleared) RGBA() (r, g, b, a uint32) {
	return 255 * uint32(c.R), 255 * uint32(c.G), 255 * uint32(c.B), 255 * uint32(c.A)
}

// Font is the bundled family; the toolkit's own for code and for its symbols.
func (l *look) Font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace || style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return semibold
	}
	return regular
}

// Icon is the toolkit's own.
func (l *look) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size keeps the four type sizes, hairlines and corners.
func (l *look) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return sizeText
	case theme.SizeNameCaptionText:
		return sizeSmall
	case theme.SizeNameSubHeadingText:
		return sizeHeading
	case theme.SizeNameHeadingText:
		return sizeFigure
	case theme.SizeNamePadding:
		return grid / 2
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameLineSpacing:
		return grid / 2
	case theme.SizeNameSeparatorThickness, theme.SizeNameInputBorder:
		return 1
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius, theme.SizeNameButtonRadius,
		theme.SizeNameCardRadius, theme.SizeNameDialogRadius, theme.SizeNamePopupRadius, theme.SizeNameMenuRadius,
		theme.SizeNameScrollBarRadius:
		return corner
	case theme.SizeNameInlineIcon:
		return 16
	case theme.SizeNameModalBlurRadius:
		return 0
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameScrollBarSmall:
		return 4
	}
	return theme.DefaultTheme().Size(name)
}
