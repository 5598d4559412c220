using DeckLife.Reporting.Html;

namespace DeckLife.Reporting.Notation;

/// <summary>Quantities on a page: written in both systems, of which the page's switch shows one.</summary>
public static class QuantityHtml
{
    /// <summary>Two texts, of which the unit switch shows one.</summary>
    /// <param name="si">In canonical units.</param>
    /// <param name="us">In US customary units.</param>
    public static HtmlFragment Both(string si, string us) =>
        si == us
            ? HtmlFragment.FromText(si)
            : HtmlFragment.Of($"<span class=\"u-si\">{si}</span><span class=\"u-us\">{us}</span>");

    /// <summary>A value with its unit.</summary>
    /// <param name="scale">The quantity.</param>
    /// <param name="canonical">The value in the canonical unit.</param>
    /// <param name="digits">Significant digits.</param>
    public static HtmlFragment Value(UnitScale scale, double canonical, int digits = 3)
    {
        ArgumentNullException.ThrowIfNull(scale);
        return Both(
            Text(scale, canonical, UnitSystem.Si, digits),
            Text(scale, canonical, UnitSystem.UsCustomary, digits)
        );
    }

    /// <summary>A unit's sign.</summary>
    /// <param name="scale">The quantity.</param>
    public static HtmlFragment Unit(UnitScale scale)
    {
        ArgumentNullException.ThrowIfNull(scale);
        return Both(scale.SiUnit, scale.UsUnit);
    }

    /// <summary>A value with its unit in one system, as text.</summary>
    /// <param name="scale">The quantity.</param>
    /// <param name="canonical">The value in the canonical unit.</param>
    /// <param name="system">The system.</param>
    /// <param name="digits">Significant digits.</param>
    public static string Text(UnitScale scale, double canonical, UnitSystem system, int digits = 3)
    {
        ArgumentNullException.ThrowIfNull(scale);
        return double.IsFinite(canonical)
            ? scale.Number(canonical, system, digits) + "\u00A0" + scale.Unit(system)
            : NumberNotation.Missing;
    }
}
