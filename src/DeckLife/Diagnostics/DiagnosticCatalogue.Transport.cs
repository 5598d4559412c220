namespace DeckLife.Diagnostics;

public static partial class DiagnosticCatalogue
{
    /// <summary>A section has no layer.</summary>
    public static DiagnosticEntry SectionWithoutLayers { get; } =
        new(
            "DL3001",
            Severity.Error,
            "Section without layers",
            "The section has no layers: give at least one, from the top.",
            "Chloride is computed in a section of one or more layers. Without any there is nothing to compute."
        );

    /// <summary>A layer has no thickness or capacity.</summary>
    public static DiagnosticEntry LayerWithoutExtent { get; } =
        new(
            "DL3002",
            Severity.Error,
            "Layer without thickness or capacity",
            "Layer '{0}' has a thickness or a capacity of 0: both must be greater than 0.",
            "A layer of no thickness, or one that holds nothing, can't be computed. Leave the layer out instead."
        );

    /// <summary>An ageing exponent of at least 1 with exposure from birth.</summary>
    public static DiagnosticEntry AgeingFromBirth { get; } =
        new(
            "DL3003",
            Severity.Error,
            "Ageing exponent needs an age at the start",
            "Layer '{0}' has an ageing exponent of at least 1 and an age of 0 at its start: give an age above 0.",
            "The coefficient grows without bound towards age 0; with an exponent of at least 1 its integral has no value there."
        );

    /// <summary>A layer has an activation but the case has no temperature.</summary>
    public static DiagnosticEntry ActivationWithoutTemperature { get; } =
        new(
            "DL3004",
            Severity.Error,
            "Activation without temperature",
            "Layer '{0}' has an activation, but no temperature is given: give one, or leave the activation out.",
            "An activation turns temperature into a factor on the diffusion coefficient; without a temperature there is no factor, and none is guessed."
        );

    /// <summary>Some layers have an isotherm and some do not.</summary>
    public static DiagnosticEntry IsothermNotInEveryLayer { get; } =
        new(
            "DL3005",
            Severity.Error,
            "Isotherm not in every layer",
            "Some layers have a binding isotherm and some have none: give every layer one, or none.",
            "With an isotherm the free chloride is a concentration in pore solution, and that is what two layers share at their interface. A layer without an isotherm does not say how much pore solution it holds. For a layer that binds nothing give a linear isotherm with alpha 0."
        );

    /// <summary>A removal leaves too little.</summary>
    public static DiagnosticEntry RemovalTooDeep { get; } =
        new(
            "DL3006",
            Severity.Error,
            "Removal too deep",
            "Removing {0:G6} mm at {1:G6} yr from a section of {2:G6} mm leaves less than {3:G6} mm: remove less.",
            "A removal may cross layers, but the last 10 mm of the section must stay. What may be removed of a real deck is far less: removal below the top bars needs a structural check."
        );

    /// <summary>A convection zone is deeper than the section.</summary>
    public static DiagnosticEntry ConvectionTooDeep { get; } =
        new(
            "DL3007",
            Severity.Error,
            "Convection depth too large",
            "A convection depth of {0:G6} mm in a section of {1:G6} mm leaves less than 10 mm (0.4 in) for diffusion: give a smaller one.",
            "The surface law holds down to the convection depth, and diffusion starts there."
        );

    /// <summary>A depth asked lies below the section.</summary>
    public static DiagnosticEntry DepthBelowSection { get; } =
        new(
            "DL3008",
            Severity.Error,
            "Depth below the section",
            "Depth {0:G6} mm at {1:G6} yr lies below the section, which is {2:G6} mm thick then: ask for a smaller depth.",
            "Depth counts from the surface of that moment, so a removal or an overlay changes what a depth means."
        );

    /// <summary>The error estimate stays above the tolerance.</summary>
    public static DiagnosticEntry ErrorAboveTolerance { get; } =
        new(
            "DL3009",
            Severity.Warning,
            "Error estimate above the tolerance",
            "The error estimate is {0:G3} kg/m3, above 2e-4 of the largest content {1:G6} kg/m3: read the numbers with that error.",
            "Mesh and steps were halved as often as allowed. Times within hours of a sudden change ask for more than the rest; leave them out where they do not matter."
        );

    /// <summary>A depth asked lies inside the convection zone.</summary>
    public static DiagnosticEntry DepthInConvectionZone { get; } =
        new(
            "DL3010",
            Severity.Note,
            "Depth inside the convection zone",
            "{0} of the depths asked lie inside the convection zone, where the content of the surface law is printed.",
            "In the convection zone wetting and drying move chloride; the model takes the zone at the law's content and computes diffusion below it only."
        );

    /// <summary>The equations could not be solved.</summary>
    public static DiagnosticEntry IngressNotCompleted { get; } =
        new(
            "DL3011",
            Severity.Error,
            "Computation not completed",
            "The equations of the section could not be solved: no content is given. Look at the isotherm's constants and at coefficients many decades apart.",
            "A nonlinear isotherm is solved by iteration at every step. Where that does not end, nothing is printed rather than a number that may be wrong."
        );

    /// <summary>A file can't be opened.</summary>
    public static DiagnosticEntry IngressNotReadable { get; } =
        new(
            "DL3019",
            Severity.Error,
            "Case can't be opened",
            "The case '{0}' can't be opened: {1}",
            "Nothing was computed. Check the path and the rights on the file."
        );

    /// <summary>A file is not readable JSON.</summary>
    public static DiagnosticEntry IngressNotJson { get; } =
        new(
            "DL3020",
            Severity.Error,
            "Not readable as JSON",
            "The file can't be read as JSON: {0}",
            "An ingress case is one JSON object; comments and trailing commas are allowed, a key given twice is not."
        );

    /// <summary>A key is unknown.</summary>
    public static DiagnosticEntry IngressUnknownKey { get; } =
        new(
            "DL3021",
            Severity.Error,
            "Unknown key",
            "{0}: '{1}' is not a key that is read here; known are {2}.{3}",
            "A misspelt key would otherwise be ignored in silence, and the answer would be that of another case."
        );

    /// <summary>A key is missing.</summary>
    public static DiagnosticEntry IngressMissingKey { get; } =
        new(
            "DL3022",
            Severity.Error,
            "Missing key",
            "{0}: '{1}' is missing; no value has a default.",
            "Every physical value is an input of its own: none is guessed."
        );

    /// <summary>A value can't be used.</summary>
    public static DiagnosticEntry IngressUnusableValue { get; } =
        new(
            "DL3023",
            Severity.Error,
            "Unusable value",
            "{0}: {1}",
            "Quantities are strings with their unit, plain numbers where the quantity has none."
        );
}
