package cmd

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// builder stands for the compiler: the program that it builds writes what it was asked to do.
const builder = `#!/bin/sh
while [ "$1" != -o ]; do shift; done
printf '#!/bin/sh\nprintf "%%s\\n" "$@"\n' >"$2"
chmod +x "$2"
`

// run.sh plans a file that is named from the folder the user stands in, which is not the program's.
func TestRunTakesAFileFromAnotherFolder(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("a shell script for Linux")
	}
	here, err := os.Getwd()
	require.NoError(t, err)
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "go"), []byte(builder), 0o755))
	for _, file := range []string{"my shed.seam.yaml", "/else/where.seam.yaml"} {
		run := exec.Command("sh", filepath.Join(here, "run.sh"), file)
		run.Dir = folder
		run.Env = append(os.Environ(), "DISPLAY=", "WAYLAND_DISPLAY=", "XDG_CACHE_HOME="+folder, "PATH="+folder+":"+os.Getenv("PATH"))
		out, err := run.CombinedOutput()
		require.NoError(t, err, "%s", out)
		asked, err := os.ReadFile(filepath.Join(folder, "seamwright", "plan.json"))
		require.NoError(t, err)
		want := file
		if !filepath.IsAbs(file) {
			want = filepath.Join(folder, file)
		}
		require.Equal(t, "plan\n"+want+"\n", string(asked))
	}
}
