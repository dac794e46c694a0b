package schedule

import (
	"regexp"
	"strings"
)

// Ids of tasks are what progress is recorded by, so a room or wall that gets another name takes them along.
var (
	// aboutRoom begins the id of a task about a whole room; the room's name follows.
	aboutRoom = regexp.MustCompile(`^(look|plates|blocks|mark|level|shims|stock|carry|returns|screws|inspect|seal|floor|fill|beads|skim|dry-skim|` +
		`(smooth|coat|dry|prime|dry-primer|paint|dry-paint|panel-coat|dry-panel)-\d+|sand|dust|mask|raking|unmask|rest|strips|battens|casing|trim|covers)-$`)
	// ofSurface ends the id of a task that hangs a course; the surface's name stands before it.
	ofSurface = regexp.MustCompile(`(-layer-\d+)?(-zone-\d+)?-course-\d+(-\d+)?$`)
)

// hanging begins the ids of tasks that hang a course.
const hanging = "hang-"

// slug is a name as it stands in ids.
func slug(name string) string { return strings.ReplaceAll(name, "/", "-") }

// RenamedRoom is a task's id when a room has got another name; rooms are the names of all, since one may begin or end like
// another. Ids of other rooms stay.
func RenamedRoom(id, from, to string, rooms []string) string {
	rest, hangs := strings.CutPrefix(id, hanging)
	longest := "" // room whose name fits
	for _, r := range rooms {
		fits := hangs && strings.HasPrefix(rest, r+"-") && ofSurface.MatchString(rest)
		if before, ok := strings.CutSuffix(id, r); ok && !hangs {
			fits = aboutRoom.MatchString(before)
		}
		if fits && len(r) > len(longest) {
			longest = r
		}
	}
	switch {
	case longest != from:
		return id
	case hangs:
		return hanging + to + strings.TrimPrefix(rest, from)
	}
	return strings.TrimSuffix(id, from) + to
}

// RenamedSurface is a task's id when a wall, named with its room, has got another name.
func RenamedSurface(id, from, to string) string {
	rest, hangs := strings.CutPrefix(id, hanging)
	tail, named := strings.CutPrefix(rest, slug(from))
	if !hangs || !named || ofSurface.FindString(tail) != tail {
		return id
	}
	return hanging + slug(to) + tail
}
