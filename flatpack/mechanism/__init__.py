"""A hinged back, its prop and rack: seats, stops, design, holds, tolerances and motion."""
