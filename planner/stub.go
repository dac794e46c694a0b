package planner

import "errors"

var errUnready = errors.New("not ready yet")

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
