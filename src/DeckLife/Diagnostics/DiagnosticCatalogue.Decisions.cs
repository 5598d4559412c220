namespace DeckLife.Diagnostics;

/// <summary>Decisions: depth of removal, value of information, error budget.</summary>
public static partial class DiagnosticCatalogue
{
    /// <summary>A depth map was asked for where no strategy places an overlay.</summary>
    public static DiagnosticEntry NothingToMap { get; } =
        new(
            "DL4101",
            Severity.Note,
            "nothing to map",
            "No strategy places an overlay, so removal depth and overlay thickness are not mapped.",
            "The map tries the materials that the deck's strategies place. Add a strategy with an overlay, at whatever depth."
        );
}
