package ask

import "seamwright/scene/draft"

// Page is a page of a document on paper, laid out and not yet drawn, as the window shows it before it is written.
type Page struct {
	Title string
	W, H  float64 // in points, which are the logical pixels of what is drawn
	Draw  func(draft.Canvas)
}
