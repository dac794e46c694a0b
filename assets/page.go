package assets

import _ "embed"

// PageLibrary is the part of three.js that the client's page needs, as one script that gives the name THREE; its licence
// (MIT) goes with it. DEVELOPERS.md tells how it is made.
//
//go:embed page/three.min.js
var PageLibrary string

// PageLibraryLicence is the licence of PageLibrary.
//
//go:embed page/three-LICENSE.txt
var PageLibraryLicence string

// PageFontRegular and PageFontSemibold are the fonts' letters for pages, cut down to Latin and the trade's marks and, as
// their licence asks of what is changed, under another name.
//
//go:embed page/sheet-regular.woff2
var PageFontRegular []byte

// PageFontSemibold is the heavier weight.
//
//go:embed page/sheet-semibold.woff2
var PageFontSemibold []byte
