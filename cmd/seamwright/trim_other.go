//go:build !(linux && cgo)

package main

// trim has nothing to do here.
func trim() {}
