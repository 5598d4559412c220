using DeckLife.Quantities;

namespace DeckLife.Rehabilitation;

/// <summary>The rim around repaired places where bars corrode faster than before (incipient anodes).</summary>
/// <remarks>
/// A corroding bar protects its neighbours; taking it out takes that away. Around square patches of side L the rim of width w covers
/// ((L + 2w)² − L²)/L² times the patched area. Which bars lie in it is taken to be independent of their salt.
/// </remarks>
public sealed record PatchHalo
{
    /// <summary>Side of a typical patch.</summary>
    public required Depth PatchSide { get; init; }

    /// <summary>Width of the rim.</summary>
    public required Depth Width { get; init; }

    /// <summary>Rate of corrosion in the rim relative to the rest of the deck; 1: no faster.</summary>
    public required double RateFactor { get; init; }

    /// <summary>Where the values come from.</summary>
    public required string Source { get; init; }

    /// <summary>Area of the rim over the area of its patch.</summary>
    public double AreaRatio
    {
        get
        {
            var side = 1 + 2 * Width.Millimetres / PatchSide.Millimetres;
            return side * side - 1;
        }
    }
}
