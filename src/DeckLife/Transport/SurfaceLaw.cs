using System.Collections.Immutable;
using DeckLife.Quantities;

namespace DeckLife.Transport;

/// <summary>The chloride content at a face in time; time counts from the law's own start.</summary>
public abstract record SurfaceLaw
{
    private readonly double _leakFraction = 1;

    private protected SurfaceLaw() { }

    /// <summary>Share of the content that reaches the concrete under a leaky membrane or sealer, 0 to 1.</summary>
    public double LeakFraction
    {
        get => _leakFraction;
        init =>
            _leakFraction = value is >= 0 and <= 1
                ? value
                : throw new ArgumentOutOfRangeException(
                    nameof(value),
                    value,
                    "A leak fraction lies between 0 and 1."
                );
    }

    /// <summary>Depth of the convection zone: the law holds down to it, and diffusion starts there (Δx of fib Bulletin 34).</summary>
    public Depth ConvectionDepth { get; init; }

    /// <summary>Whether nothing passes the face.</summary>
    public virtual bool IsSealed => false;

    /// <summary>Content [kg/m³] at a time, leak included; 0 for a sealed face.</summary>
    /// <param name="years">Time since the law's start [yr].</param>
    public double ContentAt(double years) => LeakFraction * FullContentAt(years);

    private protected abstract double FullContentAt(double years);

    /// <summary>Times since the law's start at which the content has a kink [yr].</summary>
    internal virtual ImmutableArray<double> Kinks(double untilYears) => [];

    /// <summary>Times since the law's start at which the content jumps [yr].</summary>
    internal virtual ImmutableArray<double> Jumps(double untilYears) => [];
}
