package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// readmePicture is what the test of the first screen calls its picture of a wide window.
const readmePicture = "TestTheFirstScreenHasWhatMatters-1440x900.png"

// takePicture builds the page and takes the picture of it that the README shows: the first
// screen as it opens, from the browser test that holds it to what it must have.
func takePicture(root string) error {
	dir, err := os.MkdirTemp("", "springrib-picture")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	cmd := exec.Command("go", "test", "-count=1", "-run", "^TestTheFirstScreenHasWhatMatters$", "./build/browser")
	cmd.Dir, cmd.Env = root, append(os.Environ(), "SPRINGRIB_PICTURES="+dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("the first screen is not as it must be: %w\n%s", err, out)
	}
	picture, err := os.ReadFile(filepath.Join(dir, readmePicture))
	if err != nil {
		return err
	}
	file := filepath.Join(root, "site", "picture.png")
	fmt.Println(file)
	return os.WriteFile(file, picture, 0o644)
}
