using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>What one row of a chloride table says, in canonical units.</summary>
internal readonly record struct ChlorideRow(
    int Line,
    double TopMm,
    double BottomMm,
    double ContentKgPerM3,
    bool IsNonDetect,
    double? SdKgPerM3,
    int Count,
    string Replicate
)
{
    /// <summary>The key of the slice that replicates share.</summary>
    public (double, double) Slice => (TopMm, BottomMm);

    public string Describe() =>
        TopMm == BottomMm
            ? $"at {Depth.FromMillimetres(TopMm)}"
            : $"{Depth.FromMillimetres(TopMm)} to {Depth.FromMillimetres(BottomMm)}";
}
