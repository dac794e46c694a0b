// Package calc is the whole calculation, in the order of the job itself: survey the rooms, board them, fasten,
// finish, price, schedule and check. It is a pure function of its input: no clock, no files, no globals.
package calc
