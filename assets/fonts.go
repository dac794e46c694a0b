package assets

import _ "embed"

// FontRegular and FontSemibold are the one type family of the program, Lato 2.0 under the SIL Open Font License
// (fonts/OFL.txt): its digits have equal width, and it has the marks ½ ′ ″ ² ≤ − × □.
//
//go:embed fonts/Lato-Regular.ttf
var FontRegular []byte

// FontSemibold is the heavier of the two weights.
//
//go:embed fonts/Lato-Semibold.ttf
var FontSemibold []byte

// FontLicence is the licence that travels with the fonts.
//
//go:embed fonts/OFL.txt
var FontLicence string
