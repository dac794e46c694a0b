//go:build linux && cgo

package main

/*
#include <stdlib.h>
#ifdef __GLIBC__
#include <malloc.h>
static void trim(void) { malloc_trim(0); }
#else
static void trim(void) {}
#endif
*/
import "C"

// trim gives the system back what the graphics driver has freed: the C library keeps it, and where no graphics card
// draws that is every picture that was ever shown.
func trim() { C.trim() }
