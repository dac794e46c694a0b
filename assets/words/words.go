// Package words says everything that people read: it turns a fact of the plan, or a key with values, into a sentence of
// a language, with numbers, lengths, money and dates in the form of that language and of the project's units.
//
// All wording stands in the catalogs, one folder a language (en, es) and one file an area. A phrase is a key and its
// text; {{.name}} is the place of a value, {{.name | places 1}} of a number with one decimal; a phrase that counts has
// the forms one and other, chosen by the value named count. Nothing here knows the trade, and nothing decides by words.
//
// A phrase that is missing, or a value that its text asks for and does not get, shows as ⟦key⟧: the tests of this
// package find every one, and a window that meets one goes on.
package words

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"sync"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"gopkg.in/yaml.v3"

	"seamwright/calc/plan"
)

// Language is a language of the catalogs, as projects and commands write it.
type Language string

// The languages.
const (
	English Language = "en"
	Spanish Language = "es"
)

// Languages are all of them, the one that the program is written in first.
var Languages = []Language{English, Spanish}

// Units are what a project shows its figures in.
type Units struct {
	Imperial bool
	Currency string // "" is shown as dollars
}

//go:embed en/*.yaml es/*.yaml
var catalogs embed.FS

// phrases holds the catalogs of all languages. It is read once; what it is made of ships inside the program, and the tests
// of this package hold that it can be read.
var phrases = sync.OnceValue(func() *i18n.Bundle {
	bundle := i18n.NewBundle(language.English)
	bundle.RegisterUnmarshalFunc("yaml", yaml.Unmarshal)
	for _, l := range Languages {
		if err := read(bundle, l); err != nil {
			panic(fmt.Sprintf("words: %v", err))
		}
	}
	return bundle
})

// read gives a bundle all files of a language.
func read(bundle *i18n.Bundle, l Language) error {
	files, err := fs.Glob(catalogs, path.Join(string(l), "*.yaml"))
	if err != nil {
		return err
	}
	for _, name := range files {
		text, err := catalogs.ReadFile(name)
		if err != nil {
			return err
		}
		if _, err := bundle.ParseMessageFileBytes(text, string(l)+".yaml"); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// Voice says things in one language and one project's units. It may be used from several goroutines.
type Voice struct {
	language  Language
	units     Units
	localizer *i18n.Localizer
	numbers   *message.Printer
}

// In is the voice of a language; one that has no catalog is answered in English.
func In(l Language, u Units) *Voice {
	if l != Spanish {
		l = English
	}
	return &Voice{l, u, i18n.NewLocalizer(phrases(), string(l)), message.NewPrinter(numberForm(l, u.Imperial))}
}

// numberForm is the form of numbers: a decimal comma goes with metric Spanish, while crews that build in feet and inches
// write the point.
func numberForm(l Language, imperial bool) language.Tag {
	switch {
	case l == English:
		return language.AmericanEnglish
	case imperial:
		return language.MustParse("es-US")
	}
	return language.EuropeanSpanish
}

// Language is what the voice speaks.
func (v *Voice) Language() Language { return v.language }

// Units are what the voice shows figures in.
func (v *Voice) Units() Units { return v.units }

// Text is the phrase of a key with its values, names and values by turns; "count" picks the plural form.
func (v *Voice) Text(key string, values ...any) string { return v.Fact(plan.Tell(key, values...)) }

// Fact is a fact as a sentence, "" where nothing is told.
func (v *Voice) Fact(f plan.Fact) string {
	if f.None() {
		return ""
	}
	if text, ok := f.Text(); ok {
		return text
	}
	request := i18n.LocalizeConfig{MessageID: f.Kind, TemplateParser: reader{}, PluralCount: count(f)}
	if len(f.Values) > 0 {
		data := make(map[string]any, len(f.Values))
		for _, value := range f.Values {
			data[value.Name] = said{v, value.Of}
		}
		request.TemplateData = data
	}
	text, err := v.localizer.Localize(&request)
	var missing *i18n.MessageNotFoundErr // the library would go on in English
	if errors.As(err, &missing) || err != nil && text == "" {
		return "⟦" + f.Kind + "⟧"
	}
	return text
}

// count is the number that picks the plural form, nil where the fact counts nothing.
func count(f plan.Fact) any {
	switch n := f.Of("count").(type) {
	case int:
		return n
	case float64:
		return fmt.Sprint(n)
	}
	return nil
}
