"""Requests that nobody would send on purpose: bodies spoiled at random, and a description tried."""
