package view

import (
	"errors"

	"springrib/internal/bridge"
)

// Drag moves a handle.
func (Core) Drag(raw []byte, drag bridge.Drag) (map[string]string, []byte, error) {
	return nil, nil, errors.New("there is nothing to hold here")
}
