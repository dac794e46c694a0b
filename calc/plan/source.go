package plan

// Sources of what is told: a title stands as it is in every language, and how well it is known is told beside it.

// How well a source is known: the statuses of the figures of the trade, as files and package job write them.
var known = map[string]string{
	"read": "source.read", "from memory": "source.memory", "common practice, no source": "source.practice", "derived": "source.derived", "as entered": "source.entered",
}

// Cite is a source by its title alone.
func Cite(title string) Fact { return Verbatim(title) }

// CiteRead is a source that was read.
func CiteRead(title string) Fact { return Cited(Verbatim(title), "read") }

// CiteMemory is a source that was remembered, not read.
func CiteMemory(title string) Fact { return Cited(Verbatim(title), "from memory") }

// CiteDerived is what follows from something that is known.
func CiteDerived(title string) Fact { return Cited(Verbatim(title), "derived") }

// Practice is common practice without a source.
func Practice() Fact { return Tell("source.practice") }

// Entered is what the user has written into the project.
func Entered() Fact { return Tell("source.entered") }

// Cited is a source with a status of package job. Without a title the status says all.
func Cited(title Fact, status string) Fact {
	kind, ok := known[status]
	switch {
	case !ok:
		return title
	case title.None():
		return Tell(kind)
	}
	return Tell(kind+"-of", "title", title)
}
