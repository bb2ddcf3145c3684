"""Questions for an audience: each answer and each wrong option is a claim that the model was asked about."""
