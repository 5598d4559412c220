using DeckLife.Numerics.Sampling;
using DeckLife.Numerics.Vectors;

namespace DeckLife.Numerics.Kernels;

/// <summary>
/// Fits many profiles on the same slices at once: surface content, D t and, where asked, the background, by least squares on slice means;
/// for bootstrap samples and simulation studies.
/// </summary>
/// <remarks>
/// Equation: mean over [a, b] of C0 + (Cs - C0) erfc(x/L), L = 2 sqrt(D t) (Crank, The Mathematics of Diffusion, 1975, equation 2.45, integrated).
/// For a given L the rest is linear (variable projection: Golub &amp; Pereyra, SIAM J. Numer. Anal. 10 (1973) 413): a grid over ln L from 0.2 times
/// the shallowest to 20 times the deepest centre, then a safeguarded secant on the slope to some 1e-13 in ln L. Each profile is frozen once it has settled,
/// so its result does not depend on its neighbours. Checked by: BatchedProfileFitTests.
/// </remarks>
public sealed class BatchedProfileFit
{
    private const int ChunkSize = 256;

    private readonly SliceGeometry _slices;
    private readonly LaneWidth _width;

    /// <summary>A fit on given slices.</summary>
    /// <param name="topsMm">Tops of the slices [mm], at least 0; 3 to 64 slices.</param>
    /// <param name="bottomsMm">Bottoms [mm]; equal to the top for a point.</param>
    /// <param name="weights">Weights, above 0, one a slice; empty: all 1.</param>
    /// <param name="width">The vectors to use; by default the widest that the machine has.</param>
    /// <exception cref="ArgumentException">Another number of slices or weights, a slice that ends above its top, or no slice under the surface.</exception>
    public BatchedProfileFit(
        ReadOnlySpan<double> topsMm,
        ReadOnlySpan<double> bottomsMm,
        ReadOnlySpan<double> weights = default,
        LaneWidth? width = null
    )
    {
        if (topsMm.Length < 3 || topsMm.Length > 64 || bottomsMm.Length != topsMm.Length)
        {
            throw new ArgumentException(
                "From 3 to 64 slices with a top and a bottom each are needed.",
                nameof(topsMm)
            );
        }

        if (weights.Length != 0 && weights.Length != topsMm.Length)
        {
            throw new ArgumentException("One weight a slice is needed, or none.", nameof(weights));
        }

        for (var j = 0; j < topsMm.Length; j++)
        {
            if (!(topsMm[j] >= 0 && bottomsMm[j] >= topsMm[j] && bottomsMm[j] < 1e5))
            {
                throw new ArgumentException(
                    FormattableString.Invariant(
                        $"Slice {j} from {topsMm[j]} to {bottomsMm[j]} mm: it must not end above its top."
                    ),
                    nameof(bottomsMm)
                );
            }

            if (weights.Length != 0 && !(weights[j] > 0 && double.IsFinite(weights[j])))
            {
                throw new ArgumentException(
                    FormattableString.Invariant($"Weight {j} is {weights[j]}; it must be above 0."),
                    nameof(weights)
                );
            }
        }

        if (!(bottomsMm[^1] > 0))
        {
            throw new ArgumentException(
                "The deepest slice must lie under the surface.",
                nameof(bottomsMm)
            );
        }

        _slices = new SliceGeometry(topsMm, bottomsMm, weights);
        _width = width ?? VectorWidth.InUse;
    }

    /// <summary>Number of slices.</summary>
    public int Slices => _slices.Count;

    /// <summary>Fits Cs, D t and the background, at least 0.</summary>
    /// <param name="contents">Contents, shape [profiles × slices], finite.</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    public BatchedFits Fit(ReadOnlyMemory<double> contents, int threads = 1) =>
        Run(contents, null, 0, threads);

    /// <summary>Fits Cs and D t with given backgrounds.</summary>
    /// <param name="contents">Contents, shape [profiles × slices], finite.</param>
    /// <param name="backgrounds">Backgrounds [profiles].</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    public BatchedFits Fit(
        ReadOnlyMemory<double> contents,
        ReadOnlyMemory<double> backgrounds,
        int threads = 1
    ) => Run(contents, backgrounds, 0, threads);

    /// <summary>Fits Cs, D t and the background, with limits of D t: where the least sum of squares has risen by its share t²/(n - 3).</summary>
    /// <remarks>Source: Bates &amp; Watts, Nonlinear Regression Analysis and Its Applications (1988), chapter 6.</remarks>
    /// <param name="contents">Contents, shape [profiles × slices], finite.</param>
    /// <param name="student">Quantile t of Student's law at n - 3 degrees of freedom, above 0.</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    /// <param name="ofAll">Whether limits of Cs and the background are wanted too, some five times the work.</param>
    public BatchedFits FitWithLimits(
        ReadOnlyMemory<double> contents,
        double student,
        int threads = 1,
        bool ofAll = false
    ) => Run(contents, null, Rise(student, 3), threads, ofAll);

    /// <summary>Fits Cs and D t with given backgrounds, with limits of D t: where the least sum of squares has risen by its share t²/(n - 2).</summary>
    /// <param name="contents">Contents, shape [profiles × slices], finite.</param>
    /// <param name="backgrounds">Backgrounds [profiles].</param>
    /// <param name="student">Quantile t of Student's law at n - 2 degrees of freedom, above 0.</param>
    /// <param name="threads">Number of threads; 0 for one a processor.</param>
    /// <param name="ofAll">Whether limits of Cs and the background are wanted too, some five times the work.</param>
    public BatchedFits FitWithLimits(
        ReadOnlyMemory<double> contents,
        ReadOnlyMemory<double> backgrounds,
        double student,
        int threads = 1,
        bool ofAll = false
    ) => Run(contents, backgrounds, Rise(student, 2), threads, ofAll);

    private double Rise(double student, int parameters)
    {
        if (Slices <= parameters)
        {
            throw new InvalidOperationException("Limits need more slices than parameters.");
        }

        if (!(student > 0 && student < 1e6))
        {
            throw new ArgumentOutOfRangeException(
                nameof(student),
                student,
                "The quantile must be above 0."
            );
        }

        return student * student / (Slices - parameters);
    }

    private BatchedFits Run(
        ReadOnlyMemory<double> contents,
        ReadOnlyMemory<double>? backgrounds,
        double rise,
        int threads,
        bool ofAll = false
    )
    {
        var count = contents.Length / Slices;
        if (
            count * Slices != contents.Length
            || (backgrounds is { } given && given.Length != count)
        )
        {
            throw new ArgumentException(
                "Whole profiles, and a background each, are needed.",
                nameof(contents)
            );
        }

        foreach (var value in contents.Span)
        {
            if (!double.IsFinite(value))
            {
                throw new ArgumentException("The contents must be finite.", nameof(contents));
            }
        }

        var fits = new BatchedFits(count, rise > 0, ofAll);
        FixedOrderParallel.Run(
            FixedOrderParallel.ChunkCount(count, ChunkSize),
            () => new AlignedArray(),
            (memory, chunk) =>
                Chunk(
                    contents.Span,
                    backgrounds is { } b ? b.Span : default,
                    chunk * ChunkSize,
                    Math.Min(ChunkSize, count - (chunk * ChunkSize)),
                    memory,
                    rise,
                    fits
                ),
            threads
        );
        return fits;
    }

    private unsafe void Chunk(
        ReadOnlySpan<double> contents,
        ReadOnlySpan<double> backgrounds,
        int first,
        int count,
        AlignedArray memory,
        double rise,
        BatchedFits fits
    )
    {
        const int most = 8;
        var slices = Slices;
        var lanes = (int)_width;
        var block = memory.Ensure((slices + 12 + (4 * (slices + _slices.Edges.Length))) * most);
        var found = block + (slices * lanes);
        var bounds = fits.SurfaceContentLow.Length > 0 ? found + (8 * most) : null;
        var scratch = found + (12 * most);
        var isFitted = backgrounds.Length == 0;
        for (var from = first; from < first + count; from += lanes)
        {
            for (var l = 0; l < lanes; l++)
            {
                var profile = Math.Min(from + l, first + count - 1);
                var given = isFitted ? 0 : backgrounds[profile];
                for (var j = 0; j < slices; j++)
                {
                    block[(j * lanes) + l] = contents[(profile * slices) + j] - given;
                }
            }

            switch (_width)
            {
                case LaneWidth.Eight:
                    ProfileFitLanes512.Fit(
                        _slices,
                        block,
                        isFitted,
                        scratch,
                        found,
                        found + 8,
                        found + 16,
                        found + 24,
                        found + 32,
                        found + 40,
                        rise,
                        found + 48,
                        found + 56,
                        bounds
                    );
                    break;
                case LaneWidth.Four:
                    ProfileFitLanes256.Fit(
                        _slices,
                        block,
                        isFitted,
                        scratch,
                        found,
                        found + 8,
                        found + 16,
                        found + 24,
                        found + 32,
                        found + 40,
                        rise,
                        found + 48,
                        found + 56,
                        bounds
                    );
                    break;
                default:
                    var settled = ProfileFitScalar.Fit(
                        _slices,
                        new ReadOnlySpan<double>(block, slices),
                        isFitted,
                        new Span<double>(scratch, slices + (2 * _slices.Edges.Length)),
                        out found[0],
                        out found[8],
                        out found[16],
                        out found[24],
                        out var gridPoint,
                        rise,
                        out found[48],
                        out found[56],
                        bounds == null ? [] : new Span<double>(bounds, 4)
                    );
                    found[32] = gridPoint;
                    found[40] = settled ? 1 : 0;
                    break;
            }

            for (var l = 0; l < lanes && from + l < first + count; l++)
            {
                var i = from + l;
                var background = isFitted ? found[8 + l] : backgrounds[i];
                var length = Math.Exp(found[16 + l]);
                fits.Background[i] = background;
                fits.SurfaceContent[i] = background + found[l];
                fits.SpreadMm2[i] = 0.25 * length * length;
                fits.ResidualSumOfSquares[i] = found[24 + l];
                fits.Status[i] =
                    !(found[l] > 0) ? BatchedFitStatus.NoDecrease
                    : found[32 + l] is 0 or SliceGeometry.GridPoints - 1
                        ? BatchedFitStatus.AtEndOfInterval
                    : found[40 + l] == 1 ? BatchedFitStatus.Converged
                    : BatchedFitStatus.NotConverged;
                if (rise > 0)
                {
                    var isSound = fits.Status[i] == BatchedFitStatus.Converged;
                    fits.SpreadLowMm2[i] = isSound ? 0.25 * Math.Exp(2 * found[48 + l]) : 0;
                    fits.SpreadHighMm2[i] = isSound
                        ? 0.25 * Math.Exp(2 * found[56 + l])
                        : double.PositiveInfinity;
                    if (bounds != null)
                    {
                        fits.SurfaceContentHigh[i] = isSound
                            ? bounds[l] + (isFitted ? 0 : background)
                            : double.PositiveInfinity;
                        fits.SurfaceContentLow[i] = isSound
                            ? Math.Max(0, (isFitted ? 0 : background) - bounds[lanes + l])
                            : 0;
                        fits.BackgroundHigh[i] =
                            !isFitted ? background
                            : isSound ? bounds[(2 * lanes) + l]
                            : double.PositiveInfinity;
                        fits.BackgroundLow[i] =
                            !isFitted ? background
                            : isSound ? Math.Max(0, -bounds[(3 * lanes) + l])
                            : 0;
                    }
                }
            }
        }
    }
}
