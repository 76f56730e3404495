"""What the cook wrote: the model, and the forms it is read from and written to."""
