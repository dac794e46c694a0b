// Package proof holds the independent check of whole plans; it is test code only. It reads the project file itself
// and the plan's JSON, and shares nothing with the code that makes plans: own lengths, own polygons (areas by
// vertical strips in binary floating point, to the tolerances named there), own view of the rules. Random rooms are
// written as project files, planned by the program, and every plan is held against its file.
package proof
