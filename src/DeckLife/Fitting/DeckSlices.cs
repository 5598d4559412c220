using DeckLife.Numerics.Diffusion;
using DeckLife.Numerics.SpecialFunctions;
using DeckLife.Profiles;

namespace DeckLife.Fitting;

/// <summary>The slices of all cores of one deck fit as plain arrays, and the mean shares of Cs - C0 that they hold.</summary>
/// <remarks>Slices that touch share the work of their common edge.</remarks>
internal sealed class DeckSlices
{
    private const double InverseSqrtPi = 0.564189583547756286948079451560772586;

    private readonly int[] _firstEdge;
    private readonly double[] _edgeMm;
    private readonly int[] _topEdge;
    private readonly int[] _bottomEdge;
    private readonly double[] _inverseThickness;
    private readonly double[] _inverseErrorFactor;
    private readonly Lazy<SliceShareTable> _table;

    /// <summary>Lays the slices of the cores out.</summary>
    /// <param name="cores">The cores, each with the slices that take part.</param>
    /// <param name="weights">What the errors mean.</param>
    public DeckSlices(IReadOnlyList<CoreProfile> cores, SliceWeights weights)
    {
        Weights = weights;
        CoreCount = cores.Count;
        Years = [.. cores.Select(c => c.ExposureAge.Years)];
        FirstSlice = new int[CoreCount + 1];
        _firstEdge = new int[CoreCount + 1];
        var edges = new List<double>();
        var tops = new List<int>();
        var bottoms = new List<int>();
        var thickness = new List<double>();
        for (var j = 0; j < CoreCount; j++)
        {
            double[] own =
            [
                .. cores[j]
                    .Slices.SelectMany(s => new[] { s.Top.Millimetres, s.Bottom.Millimetres })
                    .Distinct()
                    .Order(),
            ];
            edges.AddRange(own);
            foreach (var slice in cores[j].Slices)
            {
                tops.Add(Array.BinarySearch(own, slice.Top.Millimetres));
                bottoms.Add(Array.BinarySearch(own, slice.Bottom.Millimetres));
                thickness.Add(slice.Bottom.Millimetres - slice.Top.Millimetres);
            }

            FirstSlice[j + 1] = tops.Count;
            _firstEdge[j + 1] = edges.Count;
            MostEdges = Math.Max(MostEdges, own.Length);
        }

        _edgeMm = [.. edges];
        _topEdge = [.. tops];
        _bottomEdge = [.. bottoms];
        _inverseThickness = [.. thickness.Select(h => h > 0 ? 1 / h : 0)];
        ChlorideSlice[] all = [.. cores.SelectMany(c => c.Slices)];
        Content = [.. all.Select(s => s.Content.KilogramsPerCubicMetre)];
        IsCensored = [.. all.Select(s => s.IsNonDetect)];
        ErrorFactor =
        [
            .. all.Select(s =>
                weights == SliceWeights.Given
                    ? s.StandardDeviation!.Value
                    : 1 / Math.Sqrt(s.Replicates)
            ),
        ];
        _inverseErrorFactor = [.. ErrorFactor.Select(f => 1 / f)];
        HasCensored = CensoredCores();
        _table = new Lazy<SliceShareTable>(() => new SliceShareTable(this));
    }

    /// <summary>Number of cores.</summary>
    public int CoreCount { get; }

    /// <summary>Number of slices of all cores.</summary>
    public int SliceCount => Content.Length;

    /// <summary>What the errors mean.</summary>
    public SliceWeights Weights { get; }

    /// <summary>Exposure age of each core [yr].</summary>
    public double[] Years { get; }

    /// <summary>Index of each core's first slice, and the number of slices at the end.</summary>
    public int[] FirstSlice { get; }

    /// <summary>Contents, or detection limits [kg/m³].</summary>
    public double[] Content { get; private set; }

    /// <summary>Which contents are detection limits.</summary>
    public bool[] IsCensored { get; private set; }

    /// <summary>Which cores have a detection limit among their contents.</summary>
    public bool[] HasCensored { get; private set; }

    /// <summary>What the deck's error is multiplied by for each slice: 1/√replicates, or the given standard deviation [kg/m³].</summary>
    public double[] ErrorFactor { get; }

    /// <summary>Largest number of distinct edges of a core.</summary>
    public int MostEdges { get; }

    /// <summary>The same slices with other contents.</summary>
    /// <param name="content">Contents or detection limits [kg/m³], one a slice.</param>
    /// <param name="isCensored">Which are detection limits.</param>
    public DeckSlices WithContents(double[] content, bool[] isCensored)
    {
        var copy = (DeckSlices)MemberwiseClone();
        copy.Content = content;
        copy.IsCensored = isCensored;
        copy.HasCensored = copy.CensoredCores();
        return copy;
    }

    /// <summary>Mean shares of Cs - C0 of the slices of one core, read from a table: within 1e-8 of <see cref="Shares"/>.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="lnDiffusion">ln(D / (mm²/yr)) at the core's own age, from -100 to 100.</param>
    /// <param name="share">Receives the shares, one a slice of the core.</param>
    public void TabulatedShares(int core, double lnDiffusion, Span<double> share)
    {
        if (!_table.Value.TryRead(core, lnDiffusion, share))
        {
            Shares(core, lnDiffusion, share);
        }
    }

    /// <summary>Mean shares of Cs - C0 of the slices of one core.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="lnDiffusion">ln(D / (mm²/yr)) at the core's own age, from -100 to 100.</param>
    /// <param name="share">Receives the shares, one a slice of the core.</param>
    public void Shares(int core, double lnDiffusion, Span<double> share)
    {
        // Mean over [a, b] of erfc(x/L) = (F(b) - F(a))/(b - a), F(x) = x erfc(x/L) - (L/√π) exp(-x²/L²). Contents matter to
        // 1e-3 kg/m³, so the absolute accuracy of this form, about 1e-15 L/(b - a), is enough at any depth.
        var length = 2 * Math.Sqrt(Math.Exp(lnDiffusion) * Years[core]);
        var first = _firstEdge[core];
        var count = _firstEdge[core + 1] - first;
        Span<double> antiderivative = stackalloc double[count];
        for (var i = 0; i < count; i++)
        {
            var z = _edgeMm[first + i] / length;
            antiderivative[i] =
                z > 27
                    ? 0
                    : length * ((z * ErrorFunction.Erfc(z)) - (InverseSqrtPi * Math.Exp(-z * z)));
        }

        var start = FirstSlice[core];
        for (var i = 0; i < share.Length; i++)
        {
            var top = _topEdge[start + i];
            var inverse = _inverseThickness[start + i];
            share[i] =
                inverse > 0
                    ? (antiderivative[_bottomEdge[start + i]] - antiderivative[top]) * inverse
                    : ErrorFunction.Erfc(_edgeMm[first + top] / length);
        }
    }

    /// <summary>Mean share of one slice and its slope in ln D.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="slice">Index of the slice among those of all cores.</param>
    /// <param name="lnDiffusion">ln(D / (mm²/yr)).</param>
    /// <param name="slope">d share / d ln D.</param>
    public double Share(int core, int slice, double lnDiffusion, out double slope) =>
        SliceMean.Value(
            _edgeMm[_firstEdge[core] + _topEdge[slice]],
            _edgeMm[_firstEdge[core] + _bottomEdge[slice]],
            2 * Math.Sqrt(Math.Exp(lnDiffusion) * Years[core]),
            out slope
        );

    /// <summary>Log likelihood of the slices of one core, constants of the data left out.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="surface">Cs [kg/m³].</param>
    /// <param name="background">C0 [kg/m³].</param>
    /// <param name="error">The deck's error: standard deviation [kg/m³], share of the content, or factor on the given ones.</param>
    /// <param name="smallestError">Smallest standard deviation of a slice [kg/m³].</param>
    /// <param name="share">Shares of the slices.</param>
    public double LogLikelihood(
        int core,
        double surface,
        double background,
        double error,
        double smallestError,
        ReadOnlySpan<double> share
    )
    {
        if (Weights != SliceWeights.Relative)
        {
            return CensoredLog(core, surface, background, error, share)
                - (0.5 * MeasuredSquares(core, surface, background, share) / (error * error));
        }

        var start = FirstSlice[core];
        double log = 0;
        double squares = 0;
        for (var i = 0; i < share.Length; i++)
        {
            var mean = background + ((surface - background) * share[i]);
            var own = error * ErrorFactor[start + i] * mean;
            var deviation = Math.Sqrt((own * own) + (smallestError * smallestError));
            var scaled = (Content[start + i] - mean) / deviation;
            if (IsCensored[start + i])
            {
                log += CensoredNormal.LogProbabilityBelow(scaled);
            }
            else
            {
                squares += scaled * scaled;
                log -= Math.Log(deviation);
            }
        }

        return log - (0.5 * squares);
    }

    /// <summary>Sum of squares of the measured slices of one core in units of the deck's error, where the error is not relative.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="surface">Cs [kg/m³].</param>
    /// <param name="background">C0 [kg/m³].</param>
    /// <param name="share">Shares of the slices.</param>
    public double MeasuredSquares(
        int core,
        double surface,
        double background,
        ReadOnlySpan<double> share
    )
    {
        var content = Content.AsSpan(FirstSlice[core], share.Length);
        var inverse = _inverseErrorFactor.AsSpan(FirstSlice[core], share.Length);
        var censored = IsCensored.AsSpan(FirstSlice[core], share.Length);
        var excess = surface - background;
        double squares = 0;
        for (var i = 0; i < share.Length; i++)
        {
            var scaled = (content[i] - background - (excess * share[i])) * inverse[i];
            squares += censored[i] ? 0 : scaled * scaled;
        }

        return squares;
    }

    /// <summary>
    /// The sums of <see cref="MeasuredSquares"/> as a parabola of the background, Cs held: <c>Constant + Linear C0 + Square C0²</c>.
    /// </summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="surface">Cs [kg/m³].</param>
    /// <param name="share">Shares of the slices.</param>
    public (double Constant, double Linear, double Square) SquaresOfBackground(
        int core,
        double surface,
        ReadOnlySpan<double> share
    )
    {
        var start = FirstSlice[core];
        double constant = 0;
        double linear = 0;
        double square = 0;
        for (var i = 0; i < share.Length; i++)
        {
            if (!IsCensored[start + i])
            {
                var rest =
                    (Content[start + i] - (surface * share[i])) * _inverseErrorFactor[start + i];
                var slope = (1 - share[i]) * _inverseErrorFactor[start + i];
                constant += rest * rest;
                linear -= 2 * rest * slope;
                square += slope * slope;
            }
        }

        return (constant, linear, square);
    }

    /// <summary>Log probability of the detection limits of one core, where the error is not relative.</summary>
    /// <param name="core">Index of the core.</param>
    /// <param name="surface">Cs [kg/m³].</param>
    /// <param name="background">C0 [kg/m³].</param>
    /// <param name="error">The deck's error.</param>
    /// <param name="share">Shares of the slices.</param>
    public double CensoredLog(
        int core,
        double surface,
        double background,
        double error,
        ReadOnlySpan<double> share
    )
    {
        if (!HasCensored[core])
        {
            return 0;
        }

        var start = FirstSlice[core];
        double log = 0;
        for (var i = 0; i < share.Length; i++)
        {
            if (IsCensored[start + i])
            {
                var mean = background + ((surface - background) * share[i]);
                log += CensoredNormal.LogProbabilityBelow(
                    (Content[start + i] - mean) / (error * ErrorFactor[start + i])
                );
            }
        }

        return log;
    }

    /// <summary>Number of measured slices of one core: the power of the deck's error in its likelihood, where the error is not relative.</summary>
    /// <param name="core">Index of the core.</param>
    public int Measured(int core)
    {
        var count = 0;
        for (var i = FirstSlice[core]; i < FirstSlice[core + 1]; i++)
        {
            count += IsCensored[i] ? 0 : 1;
        }

        return count;
    }

    private bool[] CensoredCores()
    {
        var has = new bool[CoreCount];
        for (var j = 0; j < has.Length; j++)
        {
            has[j] = Measured(j) < FirstSlice[j + 1] - FirstSlice[j];
        }

        return has;
    }
}
