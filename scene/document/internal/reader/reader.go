// Package reader runs programs that have nothing to do with this project over what it writes: a document counts as
// written when others read it. cmd/test.sh installs them, and names the folder with the modules of npm in
// SEAMWRIGHT_READERS; without it, or without a program, the tests that need one say so and skip.
package reader

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Folder is the environment variable with the folder that holds node_modules.
const Folder = "SEAMWRIGHT_READERS"

// Run runs a program of the system over a file or text and gives what it says; a program that fails, fails the test.
func Run(t *testing.T, stdin []byte, program string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		skip(t, program+" is not installed")
	}
	return output(t, stdin, "", path, args...)
}

// Node runs a script of the test's own folder, which may require the modules that cmd/test.sh installs.
func Node(t *testing.T, stdin []byte, script string, args ...string) string {
	t.Helper()
	folder := os.Getenv(Folder)
	if folder == "" {
		skip(t, "no modules of npm: "+Folder+" is not set")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		skip(t, "node is not installed")
	}
	here, err := filepath.Abs(script)
	if err != nil {
		t.Fatal(err)
	}
	return output(t, stdin, "NODE_PATH="+filepath.Join(folder, "node_modules"), node, append([]string{here}, args...)...)
}

// skip leaves a test out, unless the modules are there: then everything else must be, too.
func skip(t *testing.T, why string) {
	t.Helper()
	if os.Getenv(Folder) != "" {
		t.Fatal(why + ", though " + Folder + " is set")
	}
	t.Skip(why + ": nobody else has read this document; sh cmd/test.sh installs what does")
}

func output(t *testing.T, stdin []byte, environment, program string, args ...string) string {
	t.Helper()
	cmd := exec.Command(program, args...)
	if environment != "" {
		cmd.Env = append(os.Environ(), environment)
	}
	cmd.Stdin = bytes.NewReader(stdin)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v\n%s%s", filepath.Base(program), err, errs.String(), out.String())
	}
	return out.String()
}
