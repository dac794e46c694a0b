package schedule

import (
	"regexp"
	"strings"
)

// Ids of tasks are what progress is recorded by, so no two tasks may share one whatever rooms and walls are called, and a
// room or wall that gets another name takes them along. A slash, which no name holds, parts the names in them.
var (
	// aboutRoom begins the id of a task about a whole room; the room's name follows.
	aboutRoom = regexp.MustCompile(`^(look|plates|blocks|mark|level|shims|stock|carry|returns|screws|inspect|seal|floor|fill|beads|skim|dry-skim|` +
		`(smooth|coat|dry|prime|dry-primer|paint|dry-paint|panel-coat|dry-panel)-\d+|sand|dust|mask|raking|unmask|rest|strips|battens|casing|trim|covers)-$`)
	// run is an id of a course with dashes between all names: the surface, and what follows it.
	run = regexp.MustCompile(`^hang-(.+?)((?:-layer-\d+)?(?:-zone-\d+)?-course-\d+(?:-\d+)?)$`)
)

// hanging begins the ids of tasks that hang a course: hang-studio/south/zone-2-course-1.
const hanging = "hang-"

// CurrentID is a task's id as it is now. Files hold ids of courses as they once were, hang-studio-south-zone-2-course-1;
// of rooms whose names fit, the longest is meant.
func CurrentID(id string, rooms []string) string {
	m := run.FindStringSubmatch(id)
	if m == nil || strings.Contains(id, "/") {
		return id
	}
	longest := ""
	for _, r := range rooms {
		if strings.HasPrefix(m[1], r+"-") && len(r) > len(longest) {
			longest = r
		}
	}
	if longest == "" {
		return id
	}
	return hanging + longest + "/" + m[1][len(longest)+1:] + "/" + m[2][1:]
}

// RenamedRoom is a task's id when a room has got another name. Ids of other rooms stay.
func RenamedRoom(id, from, to string) string {
	if rest, ok := strings.CutPrefix(id, hanging+from+"/"); ok {
		return hanging + to + "/" + rest
	}
	if before, ok := strings.CutSuffix(id, from); ok && aboutRoom.MatchString(before) {
		return before + to
	}
	return id
}

// RenamedSurface is a task's id when a wall, named with its room, has got another name.
func RenamedSurface(id, from, to string) string {
	if rest, ok := strings.CutPrefix(id, hanging+from+"/"); ok {
		return hanging + to + "/" + rest
	}
	return id
}
