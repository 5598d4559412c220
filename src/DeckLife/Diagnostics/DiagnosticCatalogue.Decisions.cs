namespace DeckLife.Diagnostics;

/// <summary>Decisions: depth of removal, value of information, error budget.</summary>
public static partial class DiagnosticCatalogue
{
    /// <summary>A depth map was asked for where no strategy places an overlay.</summary>
    public static DiagnosticEntry NothingToMap { get; } =
        new(
            "DL4101",
            Severity.Note,
            "Nothing to map",
            "No strategy places an overlay, so removal depth and overlay thickness are not mapped. Add a strategy with an overlay.",
            "The map tries the materials that the deck's strategies place. Add a strategy with an overlay, at whatever depth."
        );

    /// <summary>An overlay beyond a limit of its specification.</summary>
    public static DiagnosticEntry MixBeyondSpecification { get; } =
        new(
            "DL4102",
            Severity.Warning,
            "Beyond the specification",
            "'{0}' places {1} whose {2} is {3:0.###}, beyond the limit of {4:0.###} of {5}: change the strategy or the material, or the limit where it is not your agency's.",
            "The limit is the deck folder's own. The projection goes on with what the strategy says: change the strategy, or the limit where it is not that of the agency."
        );

    /// <summary>A limit of a specification that can't be checked.</summary>
    public static DiagnosticEntry MixNotStated { get; } =
        new(
            "DL4103",
            Severity.Note,
            "Not checked against the specification",
            "'{0}' places {1}: {3} limits its {2}, which is not stated: add it to the material.",
            "Add the value to the material. Until then the projection goes on, and nothing is said on whether this limit is kept."
        );
}
