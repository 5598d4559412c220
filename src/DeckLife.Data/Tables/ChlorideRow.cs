using System.Globalization;
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
    string Replicate,
    Unit DepthUnit
)
{
    /// <summary>The key of the slice that replicates share.</summary>
    public (double, double) Slice => (TopMm, BottomMm);

    public string Describe()
    {
        var (top, bottom) = (TopMm / DepthUnit.Factor, BottomMm / DepthUnit.Factor);
        return top == bottom
            ? string.Create(CultureInfo.InvariantCulture, $"at {top:G6} {DepthUnit.Name}")
            : string.Create(
                CultureInfo.InvariantCulture,
                $"{top:G6} to {bottom:G6} {DepthUnit.Name}"
            );
    }
}
