package planner

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"seamwright/calc/guard"
)

const faultsFolder = "faults"

// Report writes what is known of a fault of the program into the user's state folder and gives the file's path. The same
// place in the code is written to the same file. The project, nil where none is known, is named by its hash alone, and
// nothing is sent anywhere.
func Report(f *guard.Fault, source []byte) (string, error) {
	dir, err := stateFolder()
	if err != nil {
		return "", err
	}
	at := sha256.Sum256([]byte(origin(f.Stack)))
	name := filepath.Join(faultsFolder, hex.EncodeToString(at[:6])+".txt")
	var b bytes.Buffer
	fmt.Fprintf(&b, "Seamwright met a fault of its own.\n\nWhat     %v\nWhen     %s\nProgram  %s, %s on %s/%s\n",
		f.Value, time.Now().Format(time.RFC3339), build(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
	if source != nil {
		fmt.Fprintf(&b, "Project  %d bytes, SHA-256 %x; its text is not in here\n", len(source), sha256.Sum256(source))
	}
	b.WriteByte('\n')
	b.WriteString("The program sends nothing by itself. Please send this file to whoever you have Seamwright from, with a word on what you did\n" +
		"last, and the project file if others may see it.\n\n")
	b.Write(f.Stack)
	return filepath.Join(dir, name), keep(name, b.Bytes())
}

// origin is the line of the code that a stack began to unwind at.
func origin(stack []byte) string {
	lines := strings.Split(string(stack), "\n")
	at := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "panic(") }) + 2 // a call takes two lines
	for at+2 < len(lines) && strings.HasPrefix(lines[at], "runtime.") {
		at += 2
	}
	if at+1 >= len(lines) {
		return ""
	}
	line, _, _ := strings.Cut(lines[at+1], " +0x")
	return strings.TrimSpace(line)
}

// build names the state of the code that the program was built from.
func build() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown build"
	}
	version := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			version += " " + s.Value
		}
	}
	return version
}
