namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue { }
