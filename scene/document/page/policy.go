package page

import (
	"crypto/sha256"
	"encoding/base64"
	"html/template"
	"strings"

	"seamwright/assets"
)

// close puts style and scripts in and names them in the page's policy.
func (c *content) close() error {
	css, err := files.ReadFile("page.css")
	if err != nil {
		return err
	}
	style := strings.Replace(string(css), "/* fonts */", fonts(), 1)
	var own strings.Builder
	own.WriteString("(() => {\n\"use strict\";\n")
	for _, name := range scripts {
		text, err := files.ReadFile("client/" + name + ".js")
		if err != nil {
			return err
		}
		own.Write(text)
		own.WriteByte('\n')
	}
	own.WriteString("})();\n")
	c.Style, c.Library, c.Script = template.CSS(style), template.JS(assets.PageLibrary), template.JS(own.String())
	c.Policy = policy(style, assets.PageLibrary, own.String())
	return nil
}

// policy lets the page do what it brings along and nothing else: it fetches nothing, sends nothing, and evaluates no text.
func policy(style string, scripts ...string) string {
	var named []string
	for _, s := range scripts {
		named = append(named, digest(s))
	}
	return strings.Join([]string{
		"default-src 'none'",
		"script-src " + strings.Join(named, " "),
		"style-src " + digest(style),
		"img-src data:",
		"font-src data:",
		"base-uri 'none'",
		"form-action 'none'",
	}, "; ")
}

// digest names an inline text as a policy does (CSP Level 3, section 2.3.1).
func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// fonts are the page's letters: subsets of the program's own.
func fonts() string {
	var b strings.Builder
	for _, f := range []struct {
		weight string
		data   []byte
	}{{"400", assets.PageFontRegular}, {"600", assets.PageFontSemibold}} {
		b.WriteString(`@font-face { font-family: "Page"; font-weight: ` + f.weight + `; src: url(data:font/woff2;base64,` +
			base64.StdEncoding.EncodeToString(f.data) + `) format("woff2"); }` + "\n")
	}
	return b.String()
}
