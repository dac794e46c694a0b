package draft

import (
	"strings"
	"unicode"

	"seamwright/assets/words"
	"seamwright/calc/job"
)

// WallName is what people call a surface within its room: "Ceiling south" for "studio/ceiling-south".
func WallName(surface string) string {
	_, name, ok := strings.Cut(surface, "/")
	if !ok {
		name = surface
	}
	return title(name)
}

// SurfaceName is what people call a surface anywhere: "Studio, ceiling south" for "studio/ceiling-south".
func SurfaceName(surface string) string {
	room, name, ok := strings.Cut(surface, "/")
	if !ok {
		return title(surface)
	}
	return title(room) + ", " + lower(title(name))
}

// placeWords are the words of names that mean the same in every project: where a wall or ceiling lies.
var placeWords = map[string]string{"ceiling": "draft.ceiling", "north": "draft.north", "east": "draft.east", "south": "draft.south", "west": "draft.west", "side": "draft.side"}

// Named is the name of a surface within its room as a language says it. A name that the user made up is left as it is.
func Named(surface string, say *words.Voice) string {
	_, name, ok := strings.Cut(surface, "/")
	if !ok {
		name = surface
	}
	parts := strings.Split(name, "-")
	for i, p := range parts {
		key, known := placeWords[p]
		if !known && (i == 0 || strings.ContainsFunc(p, func(r rune) bool { return r < '0' || r > '9' })) {
			return title(name)
		}
		if known {
			parts[i] = say.Text(key)
		}
	}
	return upper(strings.Join(parts, " "))
}

// NamedWhole is the name of a surface with its room's.
func NamedWhole(surface string, say *words.Voice) string {
	room, _, ok := strings.Cut(surface, "/")
	if !ok {
		return title(surface)
	}
	return title(room) + ", " + lower(Named(surface, say))
}

// ProductName is what people call a product in a language. One of the shipped catalog has a name in each; what a project has
// named itself is left as it is.
func ProductName(p *job.Product, say *words.Voice) string {
	key := "product." + strings.ReplaceAll(p.ID, ".", "_")
	switch {
	case p.Name == "":
		return p.ID
	case say.Language() != words.English && p.Name == words.In(words.English, say.Units()).Text(key):
		return say.Text(key)
	}
	return p.Name
}

// Plainly puts names in the place of the ids of surfaces and, at its head, of a room in a sentence of the plan:
// "Hang Studio, ceiling south, course 1" for "Hang studio/ceiling-south, course 1".
func Plainly(j *job.Job, s string) string { return plainly(j, s, SurfaceName) }

// PlainlyIn does so with the names of a language.
func PlainlyIn(j *job.Job, s string, say *words.Voice) string {
	return plainly(j, s, func(surface string) string { return NamedWhole(surface, say) })
}

func plainly(j *job.Job, s string, name func(string) string) string {
	if j == nil {
		return s
	}
	for i := range j.Rooms {
		id := j.Rooms[i].ID
		if rest, ok := strings.CutPrefix(s, id+":"); ok {
			s = title(id) + ":" + rest
		}
		s = plainRoom(s, id, name)
	}
	return s
}

// plainRoom names the surfaces of one room.
func plainRoom(s, room string, name func(string) string) string {
	var out strings.Builder
	for {
		at := strings.Index(s, room+"/")
		if at < 0 {
			out.WriteString(s)
			return out.String()
		}
		end := at + len(room) + 1
		for end < len(s) && idByte(s[end]) {
			end++
		}
		whole := at > 0 && idByte(s[at-1]) || end == at+len(room)+1
		out.WriteString(s[:at])
		if whole { // a part of another word, or no surface's name
			out.WriteString(s[at:end])
		} else {
			out.WriteString(name(s[at:end]))
		}
		s = s[end:]
	}
}

// idByte says whether an id may hold this letter.
func idByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c >= 0x80
}

func lower(s string) string { return withFirst(s, unicode.ToLower) }
func upper(s string) string { return withFirst(s, unicode.ToUpper) }

// withFirst changes the first letter.
func withFirst(s string, change func(rune) rune) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = change(r[0])
	}
	return string(r)
}
