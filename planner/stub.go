package planner

import (
	"errors"

	"seamwright/calc/job"
)

var errUnready = errors.New("not ready yet")

type reading struct{ job *job.Job }
type patch struct{}

func newPatch([]byte, *reading) *patch                         { return &patch{} }
func (p *patch) finish(string) ([]byte, *reading, error)       { return nil, nil, errUnready }
func readSource(string, []byte) (*reading, error)              { return nil, errUnready }
func resolve(j *job.Job, alternative string) *job.Job          { return j }
func findAlternative(j *job.Job, name string) *job.Alternative { return nil }

// Parse reads a project. Name is how errors call the file.
func Parse(name string, src []byte) (*Document, error) { return nil, errUnready }

// Load reads a project file.
func Load(path string) (*Document, error) { return nil, errUnready }

// New is an empty project.
func New(units job.Units) *Document {
	return &Document{name: "new project", read: &reading{job: &job.Job{Units: units}}, jobs: map[string]*job.Job{}}
}

// Save writes the document to its file: atomically, with one backup beside it.
func (d *Document) Save() error { return errUnready }

// SaveAs writes the document to another file, which becomes its own.
func (d *Document) SaveAs(path string) error { return errUnready }

// SaveOver saves although another program has changed the file.
func (d *Document) SaveOver() error { return errUnready }

// Reload reads the file again as one undoable step.
func (d *Document) Reload() error { return errUnready }

// ChangedOnDisk says whether another program has changed or removed the file.
func (d *Document) ChangedOnDisk() bool { return false }

// Recent is the files worked on lately, newest first.
func Recent() []RecentFile { return nil }

// RecentFile is one file worked on lately.
type RecentFile struct {
	Path    string
	Missing bool
}

// Remember puts a file at the head of the recent ones; Forget drops them all.
func Remember(path string) error { return errUnready }

// ForgetRecent empties the list.
func ForgetRecent() error { return errUnready }

// Autosave keeps an unsaved document in the user's state folder.
func (d *Document) Autosave() error { return errUnready }

// Discard removes the document's autosaved copy, after saving or when the user gives it up.
func (d *Document) Discard() error { return errUnready }

// Recovery is an autosaved copy that is newer than what stands on disk.
type Recovery struct {
	Path string // the project file it belongs to, "" for one never saved
	Name string
}

// Recoverable lists the copies left by a run that did not end well.
func Recoverable() []Recovery { return nil }

// Open gives the recovered document, changed against its file.
func (r Recovery) Open() (*Document, error) { return nil, errUnready }

// Drop removes the copy.
func (r Recovery) Drop() error                  { return errUnready }
func (SetName) apply(*patch) error              { return errUnready }
func (SetUnits) apply(*patch) error             { return errUnready }
func (SetCurrency) apply(*patch) error          { return errUnready }
func (SetAim) apply(*patch) error               { return errUnready }
func (SetSite) apply(*patch) error              { return errUnready }
func (SetRules) apply(*patch) error             { return errUnready }
func (SetPaint) apply(*patch) error             { return errUnready }
func (SetFigure) apply(*patch) error            { return errUnready }
func (ResetFigure) apply(*patch) error          { return errUnready }
func (SetPrice) apply(*patch) error             { return errUnready }
func (SetSizes) apply(*patch) error             { return errUnready }
func (SetPackPrice) apply(*patch) error         { return errUnready }
func (AddStock) apply(*patch) error             { return errUnready }
func (ChangeStock) apply(*patch) error          { return errUnready }
func (RemoveStock) apply(*patch) error          { return errUnready }
func (AddAlternative) apply(*patch) error       { return errUnready }
func (RenameAlternative) apply(*patch) error    { return errUnready }
func (RemoveAlternative) apply(*patch) error    { return errUnready }
func (SetAlternativeLining) apply(*patch) error { return errUnready }
func (TickTask) apply(*patch) error             { return errUnready }
func (RecordUse) apply(*patch) error            { return errUnready }
func (AddRoom) apply(*patch) error              { return errUnready }
func (RemoveRoom) apply(*patch) error           { return errUnready }
func (RenameRoom) apply(*patch) error           { return errUnready }
func (MoveCorner) apply(*patch) error           { return errUnready }
func (MoveSide) apply(*patch) error             { return errUnready }
func (MoveRoom) apply(*patch) error             { return errUnready }
func (AddCorner) apply(*patch) error            { return errUnready }
func (RemoveCorner) apply(*patch) error         { return errUnready }
func (SetRoomHeight) apply(*patch) error        { return errUnready }
func (SetCeiling) apply(*patch) error           { return errUnready }
func (SetWall) apply(*patch) error              { return errUnready }
func (SetLining) apply(*patch) error            { return errUnready }
func (AddOpening) apply(*patch) error           { return errUnready }
func (ChangeOpening) apply(*patch) error        { return errUnready }
func (RemoveOpening) apply(*patch) error        { return errUnready }
func (AddBox) apply(*patch) error               { return errUnready }
func (ChangeBox) apply(*patch) error            { return errUnready }
func (RemoveBox) apply(*patch) error            { return errUnready }
func (AddPin) apply(*patch) error               { return errUnready }
func (RemovePin) apply(*patch) error            { return errUnready }
