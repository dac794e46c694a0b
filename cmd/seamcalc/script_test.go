package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets the scripts run seamcalc as a command of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"seamcalc": func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs testdata/script: each file holds the calls, what is fed in and what must come out.
func TestScripts(t *testing.T) {
	samples, err := filepath.Abs("../../assets/samples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("SAMPLES", samples)
			return nil
		},
	})
}
