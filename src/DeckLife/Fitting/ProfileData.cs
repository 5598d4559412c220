namespace DeckLife.Fitting;

/// <summary>The slices of one fit as plain numbers.</summary>
internal sealed class ProfileData
{
    /// <summary>Line of the file of each slice.</summary>
    public required int[] Rows { get; init; }

    /// <summary>Tops [mm].</summary>
    public required double[] TopMm { get; init; }

    /// <summary>Bottoms [mm]; equal to the tops for points.</summary>
    public required double[] BottomMm { get; init; }

    /// <summary>Contents, or detection limits [kg/m³].</summary>
    public required double[] Content { get; init; }

    /// <summary>Which contents are detection limits.</summary>
    public required bool[] Censored { get; init; }

    /// <summary>Number of determinations behind each content.</summary>
    public required double[] Replicates { get; init; }

    /// <summary>Weights: inverse variances up to a common factor, or absolute when <see cref="ScaleIsKnown"/>.</summary>
    public required double[] Weight { get; init; }

    /// <summary>Whether the weights are inverse variances in (kg/m³)⁻².</summary>
    public bool ScaleIsKnown { get; init; }

    /// <summary>Exposure age [yr].</summary>
    public required double Years { get; init; }

    /// <summary>The background where it is held [kg/m³].</summary>
    public double? FixedBackground { get; init; }

    /// <summary>Number of slices.</summary>
    public int Count => Content.Length;

    /// <summary>Number of slices whose content was measured.</summary>
    public int Detected => Censored.Count(c => !c);

    /// <summary>Number of free parameters: Cs, D and, unless held, C0.</summary>
    public int FreeParameters => FixedBackground is null ? 3 : 2;

    /// <summary>Residual degrees of freedom, counting measured slices only.</summary>
    public int DegreesOfFreedom => Detected - FreeParameters;

    /// <summary>The same slices with other weights.</summary>
    public ProfileData WithWeights(double[] weight) =>
        Copy(weight, Content, Censored, FixedBackground);

    /// <summary>The same slices with other contents.</summary>
    public ProfileData WithContents(double[] content, bool[] censored) =>
        Copy(Weight, content, censored, FixedBackground);

    /// <summary>The same slices with the background held.</summary>
    public ProfileData WithBackground(double? background) =>
        Copy(Weight, Content, Censored, background);

    /// <summary>The slices without one of them.</summary>
    public ProfileData Without(int index) =>
        new()
        {
            Rows = Drop(Rows, index),
            TopMm = Drop(TopMm, index),
            BottomMm = Drop(BottomMm, index),
            Content = Drop(Content, index),
            Censored = Drop(Censored, index),
            Replicates = Drop(Replicates, index),
            Weight = Drop(Weight, index),
            ScaleIsKnown = ScaleIsKnown,
            Years = Years,
            FixedBackground = FixedBackground,
        };

    private ProfileData Copy(
        double[] weight,
        double[] content,
        bool[] censored,
        double? background
    ) =>
        new()
        {
            Rows = Rows,
            TopMm = TopMm,
            BottomMm = BottomMm,
            Content = content,
            Censored = censored,
            Replicates = Replicates,
            Weight = weight,
            ScaleIsKnown = ScaleIsKnown,
            Years = Years,
            FixedBackground = background,
        };

    private static T[] Drop<T>(T[] values, int index) =>
        [.. values.AsSpan(0, index), .. values.AsSpan(index + 1)];
}
