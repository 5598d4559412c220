using System.Text;
using DeckLife.Reporting.Html;
using DeckLife.Reporting.Notation;

namespace DeckLife.Reporting.Tables;

/// <summary>A link that saves a table as a CSV file: the file lies in the link, so it needs neither network nor scripts.</summary>
public static class CsvLink
{
    /// <summary>The link.</summary>
    /// <param name="table">The table; saved in canonical units and full precision.</param>
    /// <param name="title">What the file is about; its name is made of this.</param>
    /// <param name="system">The units of the table's numbers where they are not the canonical ones.</param>
    public static HtmlFragment To(
        ReportTable table,
        string title,
        UnitSystem system = UnitSystem.Si
    )
    {
        var units = system == UnitSystem.Si ? "SI units" : "US customary units";
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(title);
        return HtmlFragment.Of(
            $"<a class=\"dl-csv\" download=\"{FileName(title)}\" href=\"data:text/csv;charset=utf-8,{Encoded(table.ToCsv())}\" aria-label=\"Save as CSV, {units}: {title}\">Save as CSV ({units})</a>"
        );
    }

    private static string FileName(string title)
    {
        var name = new StringBuilder(title.Length);
        foreach (var sign in title)
        {
            if (char.IsAsciiLetterOrDigit(sign))
            {
                name.Append(char.ToLowerInvariant(sign));
            }
            else if (name.Length > 0 && name[^1] != '-')
            {
                name.Append('-');
            }

            if (name.Length == 60)
            {
                break;
            }
        }

        return name.ToString().TrimEnd('-') is { Length: > 0 } made ? made + ".csv" : "numbers.csv";
    }

    // Commas, most of a table beside its digits, stay one byte.
    // A byte order mark goes first; without it a spreadsheet misreads mm²/yr.
    private static string Encoded(string csv) =>
        Uri.EscapeDataString('\uFEFF' + csv).Replace("%2C", ",", StringComparison.Ordinal);
}
