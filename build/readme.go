package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// readmePicture is what the test of the thing in its light calls its picture.
const readmePicture = "TestTheThingStandsLitWhereThereIsACard-lit.png"

// takePicture builds the page and takes the picture of it that the README shows: the first
// screen as it opens, lit as on a machine with a graphics card.
func takePicture(root string) error {
	dir, err := os.MkdirTemp("", "springrib-picture")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	cmd := exec.Command("go", "test", "-count=1", "-run", "^TestTheThingStandsLitWhereThereIsACard$", "./build/browser")
	cmd.Dir, cmd.Env = root, append(os.Environ(), "SPRINGRIB_PICTURES="+dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("the thing does not stand in its light: %w\n%s", err, out)
	}
	picture, err := os.ReadFile(filepath.Join(dir, readmePicture))
	if err != nil {
		return err
	}
	file := filepath.Join(root, "site", "picture.png")
	fmt.Println(file)
	return os.WriteFile(file, picture, 0o644)
}
