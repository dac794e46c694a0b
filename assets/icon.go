package assets

import _ "embed"

// Icon is the program's sign, 256 by 256 pixels, drawn by package scene/draft.
//
//go:embed icons/seamwright-256.png
var Icon []byte
