package ui

import (
	"strings"

	"seamwright/calc/guard"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// keys is one key with its modifiers.
type keys struct {
	key fyne.KeyName
	mod fyne.KeyModifier
}

const (
	ctrl  = fyne.KeyModifierShortcutDefault
	shift = fyne.KeyModifierShift
	alt   = fyne.KeyModifierAlt
)

// String writes the keys as they are printed in menus: Ctrl+Shift+S.
func (k keys) String() string {
	if k.key == "" {
		return ""
	}
	var b strings.Builder
	for _, m := range []struct {
		mod  fyne.KeyModifier
		name string
	}{{fyne.KeyModifierControl, "Ctrl+"}, {fyne.KeyModifierSuper, "Cmd+"}, {alt, "Alt+"}, {shift, "Shift+"}} {
		if k.mod&m.mod != 0 {
			b.WriteString(m.name)
		}
	}
	name := string(k.key)
	switch k.key {
	case fyne.KeyDelete:
		name = "Del"
	case fyne.KeyEscape:
		name = "Esc"
	}
	return b.String() + name
}

// shortcut is the keys as the toolkit reports them.
func (k keys) shortcut() fyne.Shortcut {
	switch {
	case k.key == fyne.KeyZ && k.mod == ctrl:
		return &fyne.ShortcutUndo{}
	case k.key == fyne.KeyY && k.mod == ctrl:
		return &fyne.ShortcutRedo{}
	}
	return &desktop.CustomShortcut{KeyName: k.key, Modifier: k.mod}
}

// command is one action: its place in a menu, its key, and its words in the finder are all made from this.
type command struct {
	id    string
	menu  string
	title string
	more  string // further words that the finder knows it by
	short string // what the finder ranks it by where its title is longer: a file's name without its folder
	key   keys
	also  keys // a second key, not shown
	run   func()

	words    func() string     // words that change, such as what Undo takes back
	can      func() bool       // nil: always
	on       func() bool       // nil: not a switch
	children func() []*command // a submenu
	section  bool              // a line stands above it
	submenu  bool              // stands in a submenu of its menu
	rooms    bool              // also while rooms are compared: it is about how they are seen
}

func (c *command) label() string {
	if c.words != nil {
		return c.words()
	}
	return c.title
}

func (c *command) enabled() bool { return c.can == nil || c.can() }

// menuNames are the menus from left to right.
var menuNames = []string{"File", "Edit", "Room", "Walls", "View", "Documents", "Help"}

// register puts commands into the table and their keys on the canvas.
func (w *Window) register(cs ...*command) {
	for _, c := range cs {
		w.commands = append(w.commands, c)
		for _, k := range []keys{c.key, c.also} {
			if k.key == "" || k.mod == 0 || k.mod == shift {
				continue
			}
			w.win.Canvas().AddShortcut(k.shortcut(), func(fyne.Shortcut) { w.invoke(c) })
		}
	}
}

// invoke runs a command if it can be run now.
func (w *Window) invoke(c *command) {
	defer guard.Catch(w.faulted)
	if w.covered() && c.id != "back" && !(c.rooms && w.compared != nil) {
		return
	}
	if c.run != nil && c.enabled() {
		c.run()
	}
}

// command finds one by its id.
func (w *Window) command(id string) *command {
	for _, c := range w.commands {
		if c.id == id {
			return c
		}
	}
	panic("ui: no command " + id)
}

// typedShortcut runs the command that owns a shortcut; for entries, which would otherwise keep it.
func (w *Window) typedShortcut(s fyne.Shortcut) bool {
	custom, ok := s.(*desktop.CustomShortcut)
	if !ok {
		return false
	}
	for _, c := range w.commands {
		for _, k := range []keys{c.key, c.also} {
			if k.key == custom.KeyName && k.mod == custom.Modifier && k.mod != 0 {
				w.invoke(c)
				return true
			}
		}
	}
	return false
}

// typedKey runs the command that owns a key without Ctrl; it is asked after whatever has the focus.
func (w *Window) typedKey(e *fyne.KeyEvent) {
	defer guard.Catch(w.faulted)
	mod := w.modifiers() & shift
	for _, c := range w.commands {
		for _, k := range []keys{c.key, c.also} {
			if k.key == e.Name && k.mod == mod && k.key != "" {
				w.invoke(c)
				return
			}
		}
	}
	if w.compared != nil {
		w.compared.eye.key(e)
	}
}

// modifiers are the keys held down now.
func (w *Window) modifiers() fyne.KeyModifier {
	if d, ok := w.app.Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}
