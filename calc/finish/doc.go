// Package finish counts what closes, coats and trims a hung lining: joints by kind, those of returns and penetrations
// too, compound by coat, tape, beads, edges of board and panels, primer, paint, clear coats, trim, shims, masking and
// sundries; how long coats dry; how wide a butt joint must be feathered; and how the lining meets a floor that is not level.
//
// Quantities come from the shape of the thing itself. Compound is the volume of a joint's cross-section along its
// length (taper recess, tape bed, crown spread to a feathered width) at the coats that the finish level asks for, grown
// by shrinkage and loss; published allowances stand beside it in the basis. Sticks are cut from stock lengths by
// the nesting engine. Drying follows a fit to a remembered table over the vapour pressure of the Magnus formula.
//
// Every figure that a user may know better is a job.Figure with unit, source and status; see Figures.
package finish
