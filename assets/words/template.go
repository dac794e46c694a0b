package words

import (
	"fmt"
	"strings"
	"text/template"
	"unicode/utf8"

	i18ntemplate "github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/number"

	"seamwright/calc/plan"
)

// reader reads the texts of phrases. What it gives may be kept by the library: the functions learn from the values
// themselves which voice speaks.
type reader struct{}

func (reader) Cacheable() bool { return true }

func (reader) Parse(src, left, right string) (i18ntemplate.ParsedTemplate, error) {
	t, err := parseText(src)
	if err != nil {
		return nil, err
	}
	return phrase{t}, nil
}

func parseText(src string) (*template.Template, error) {
	return template.New("").Option("missingkey=error").Funcs(functions).Parse(src)
}

// phrase is a text ready to be filled in.
type phrase struct{ text *template.Template }

func (p phrase) Execute(data any) (string, error) {
	if data == nil {
		data = map[string]any{}
	}
	var b strings.Builder
	if err := p.text.Execute(&b, data); err != nil {
		return "", err
	}
	return b.String(), nil
}

// said is a value on its way into a phrase. It shows itself in the form of its voice.
type said struct {
	voice *Voice
	value any
}

func (s said) String() string { return s.voice.Value(s.value) }

// functions are what a phrase may do with a value.
var functions = template.FuncMap{
	"places":  places,
	"digits":  digits,
	"join":    join,
	"capital": capital,
	"date":    func(s said) (string, error) { return s.dated("date.long") },
	"day":     func(s said) (string, error) { return s.dated("date.day") },
	"weekday": func(s said) (string, error) { return s.dated("date.weekday") },
	"clock":   func(s said) (string, error) { return s.dated("date.clock") },
}

// places shows a number with so many decimals: {{.hours | places 2}}.
func places(n int, s said) (string, error) {
	x, err := s.number()
	return s.voice.numbers.Sprint(number.Decimal(x, number.Scale(n))), err
}

// digits shows a number with at most so many digits that count: {{.rate | digits 3}}.
func digits(n int, s said) (string, error) {
	x, err := s.number()
	return s.voice.numbers.Sprint(number.Decimal(x, number.Precision(n))), err
}

func (s said) number() (float64, error) {
	switch x := s.value.(type) {
	case float64:
		return x, nil
	case int:
		return float64(x), nil
	}
	return 0, fmt.Errorf("words: %T is no plain number", s.value)
}

// join puts what is listed together with a mark of the phrase's own: {{.parts | join " + "}}.
func join(mark string, s said) (string, error) {
	parts, ok := s.value.([]plan.Fact)
	if !ok {
		return "", fmt.Errorf("words: %T is no list", s.value)
	}
	all := make([]string, len(parts))
	for i, f := range parts {
		all[i] = s.voice.Fact(f)
	}
	return strings.Join(all, mark), nil
}

// capital begins a sentence with a value.
func capital(v any) string {
	text := fmt.Sprint(v)
	_, first := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:first]) + text[first:]
}
