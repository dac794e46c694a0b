package planner

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// refuseText refuses what is not plain text of a bearable size.
func refuseText(file string, src []byte) *Error {
	if len(src) > largestFile {
		return &Error{File: file, Line: 1, Col: 1, Message: fmt.Sprintf("the file is larger than %d MiB, the most that a project may be", largestFile>>20),
			Remedy: "divide the project into several files"}
	}
	if len(bytes.TrimSpace(src)) == 0 {
		return &Error{File: file, Line: 1, Col: 1, Message: "the file is empty", Remedy: "a project begins with `seamwright: 1`"}
	}
	marks := 0
	line, col := 1, 1
	for i := 0; i < len(src); {
		r, size := utf8.DecodeRune(src[i:])
		switch {
		case r == utf8.RuneError && size == 1, r < ' ' && r != '\t' && r != '\n' && r != '\r', r == 0x7f, r == 0xfffe, r == 0xffff:
			return &Error{File: file, Line: line, Col: col, Message: "the file is not UTF-8 text",
				Remedy: "a project is a text file that begins with `seamwright: 1`"}
		case r >= 0x80 && r < 0xa0 && r != 0x85:
			return &Error{File: file, Line: line, Col: col, Message: fmt.Sprintf("an invisible control character (U+%04X) stands here", r), Remedy: "delete it"}
		case r == 0x85, r == 0x2028, r == 0x2029:
			return &Error{File: file, Line: line, Col: col, Message: "there is an unusual line break here", Remedy: "use plain line ends"}
		case r == 0xfeff && i > 0:
			return &Error{File: file, Line: line, Col: col, Message: "there is a byte order mark inside the text", Remedy: "delete it"}
		case r == ',' || r == ':' || r == '[' || r == '{' || r == '-':
			marks++
		}
		if r == '\n' || r == '\r' && !(i+1 < len(src) && src[i+1] == '\n') {
			line, col = line+1, 0
			marks++
		}
		if i > 0 || r != 0xfeff {
			col++
		}
		i += size
	}
	if marks > mostMarks {
		return &Error{File: file, Line: 1, Col: 1, Message: "the file holds more entries than any project needs", Remedy: "divide the project into several files"}
	}
	return nil
}

// directive is the line that says which YAML a file is written in.
var directive = regexp.MustCompile(`^(\x{feff}?)%YAML 1\.[12][ \t]*[\r\n]`)

// withoutDirective makes a comment of the line %YAML 1.2 at the head of a text, which the YAML reader does not know. All
// places stay the same.
func withoutDirective(src []byte) []byte {
	m := directive.FindSubmatchIndex(src)
	if m == nil {
		return src
	}
	src = bytes.Clone(src)
	src[m[3]] = '#'
	return src
}

var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// syntaxRemedies rewords what the YAML reader says.
var syntaxRemedies = []struct{ says, means, remedy string }{
	{"did not find expected ',' or ']'", "a list is not closed, or lacks a comma", "check the [ ] here and above"},
	{"did not find expected ',' or '}'", "a { } is not closed, or lacks a comma", "check the { } here and above"},
	{"mapping values are not allowed", "a second `key: value` stands on this line, or the line is indented too far", "give each key its own line, or write { }"},
	{"did not find expected key", "the indentation does not fit the lines above", "line the key up with its neighbours"},
	{"did not find expected '-' indicator", "the indentation does not fit the list above", "line the - up with its neighbours"},
	{"could not find expected ':'", "a key is not followed by a colon", "write `key: value`"},
	{"tab character", "a tab stands in the indent", "indent with spaces"},
	{"cannot start any token", "a tab or an unexpected mark stands here", "indent with spaces, and quote texts that begin with a mark"},
	{"unexpected end of stream", "a quoted text is not closed", "check the quotes here and above"},
	{"found unknown escape character", "a backslash in double quotes begins an escape", "use single quotes"},
	{"exceeded max depth", "lists are nested too deep", "no project nests more than a few levels"},
	{"incompatible YAML document", "the file asks for another YAML than 1.2", "delete the line"},
	{"unknown anchor", "aliases (*) are not part of a project file", "write the value out"},
}

// syntaxError gives the YAML reader's complaint a place and a remedy.
func syntaxError(file string, src []byte, err error) Error {
	const usual = "check brackets, quotes, colons and the indent here and above"
	m := yamlLine.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return Error{File: file, Line: 1, Col: 1, Message: "this is not YAML: " + err.Error(), Remedy: usual}
	}
	e := Error{File: file, Line: 1, Col: 1, Message: "this is not YAML: " + m[2], Remedy: usual} // the reader names no line where it is the first
	if n, err := strconv.Atoi(m[1]); err == nil {
		e.Line, e.Col = n, 1
	}
	for _, s := range syntaxRemedies {
		if strings.Contains(m[2], s.says) {
			e.Message, e.Remedy = s.means, s.remedy
			break
		}
	}
	if strings.Contains(m[2], "did not find expected ',' or") {
		if line, col, bracket := unclosed(src); line > 0 {
			e.Line, e.Col, e.Message, e.Remedy = line, col, fmt.Sprintf("a %c is not closed", bracket), "close it, and check the commas behind it"
		}
	}
	if strings.Contains(m[2], "tab character") { // the reader names the line that the entry begins on
		for i, line := range bytes.Split(src, []byte("\n")) {
			if blank := line[:len(line)-len(bytes.TrimLeft(line, " \t"))]; i+1 >= e.Line && bytes.ContainsRune(blank, '\t') {
				e.Line, e.Col = i+1, 1+bytes.IndexByte(blank, '\t')
				break
			}
		}
	}
	return e
}

// unclosed finds the outermost [ or { that is never closed; line 0 where all are. Quotes and brackets count where a
// value begins, as in YAML.
func unclosed(src []byte) (line, col int, bracket rune) {
	type open struct {
		line, col int
		bracket   rune
	}
	var stack []open
	var quote rune
	line, col = 1, 0
	before := '\n' // the last mark that was no blank
	blank := true  // whether a blank stands before this mark
	comment := false
	for _, r := range string(src) {
		col++
		switch {
		case r == '\n':
			line, col, comment = line+1, 0, false
		case comment:
			continue
		case quote != 0:
			if r == quote {
				quote = 0
			}
			before, blank = r, false
			continue
		case r == '#' && blank:
			comment = true
			continue
		case strings.ContainsRune("\n:-,[{", before) && (blank || before != '-' && before != ':') && (r == '"' || r == '\''):
			quote = r
		case r == '[' || r == '{':
			if len(stack) > 0 || blank && strings.ContainsRune("\n:-", before) {
				stack = append(stack, open{line, col, r})
			}
		case (r == ']' || r == '}') && len(stack) > 0:
			stack = stack[:len(stack)-1]
		}
		blank = r == ' ' || r == '\t' || r == '\n' || r == '\r'
		if !blank || r == '\n' && len(stack) == 0 {
			before = r
		}
	}
	if len(stack) == 0 {
		return 0, 0, 0
	}
	return stack[0].line, stack[0].col, stack[0].bracket
}
