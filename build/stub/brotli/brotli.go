// Package brotli stands in for the module of the same path.
//
// The geometry library imports it only for compressed web fonts, which this
// project neither reads nor writes. Both ends report errors.ErrUnsupported.
package brotli

import (
	"errors"
	"io"
)

// Reader is an always failing decompressor.
type Reader struct{}

// NewReader returns a Reader whose Read fails with errors.ErrUnsupported.
func NewReader(io.Reader) *Reader { return &Reader{} }

// Read fails.
func (*Reader) Read([]byte) (int, error) { return 0, errors.ErrUnsupported }

// Writer is an always failing compressor.
type Writer struct{}

// NewWriter returns a Writer whose methods fail with errors.ErrUnsupported.
func NewWriter(io.Writer) *Writer { return &Writer{} }

// Write fails.
func (*Writer) Write([]byte) (int, error) { return 0, errors.ErrUnsupported }

// Close fails.
func (*Writer) Close() error { return errors.ErrUnsupported }
