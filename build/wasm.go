package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// compileCore compiles the core to wasm and returns its bytes. The same sources and Go
// give the same bytes in any folder, so that the name made from them is stable.
func compileCore(root string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "springrib-wasm")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "core.wasm")
	args := append([]string{"build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-o", file}, inlining()...)
	cmd := exec.Command("go", append(args, "./wasm")...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the core does not compile to wasm: %w\n%s", err, out)
	}
	return os.ReadFile(file)
}

// inlining returns compiler flags that inline calls only where the time goes: in the
// chain of scores, the law, the geometry under every plan, the runtime and what it stands on. That
// takes a fifth off a plan for 39 kB of download, where inlining everything takes a quarter
// off for 230 kB: elsewhere it buys nothing that a person could notice. Small functions put in where
// they are called also make the core smaller before it is packed, though not after.
func inlining() []string {
	out := []string{"-gcflags=all=-l"}
	for _, hot := range []string{
		"runtime", "runtime/...", "math",
		"internal/...", "reflect", "sync", "sync/atomic", "math/bits", "sort",
		"springrib/internal/score", "springrib/internal/hinge", "springrib/internal/solve", "springrib/internal/chance",
		"springrib/internal/plane", "springrib/internal/curve", "springrib/internal/form", "springrib/internal/surface", "springrib/internal/part",
		"springrib/internal/section", "springrib/internal/sheet", "springrib/internal/state", "springrib/internal/support",
	} {
		out = append(out, "-gcflags="+hot+"=")
	}
	return out
}

// wasmExec returns the loader that belongs to the Go that compiles the core.
func wasmExec() ([]byte, error) {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, err
	}
	goroot := strings.TrimSpace(string(out))
	for _, dir := range []string{"lib/wasm", "misc/wasm"} { // moved in Go 1.24
		text, err := os.ReadFile(filepath.Join(goroot, dir, "wasm_exec.js"))
		if err == nil {
			return text, nil
		}
	}
	return nil, fmt.Errorf("no wasm_exec.js in %s", goroot)
}

// pack compresses with gzip as hard as it can, without name and time.
func pack(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// unpack undoes pack.
func unpack(data []byte) ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}
