namespace DeckLife.Studies;

/// <summary>Drawn and fixed quantities of many sections, by name.</summary>
internal readonly struct SectionDraws(int count, double[][] columns, int[] place, double[] values)
{
    public int Count => count;

    public bool IsFixed(StudyVariable variable) => place[(int)variable] < 0;

    /// <summary>The column of a drawn quantity.</summary>
    public int Place(StudyVariable variable) => place[(int)variable];

    public double At(StudyVariable variable, int row)
    {
        var at = place[(int)variable];
        return at < 0 ? values[(int)variable] : columns[at][row];
    }

    /// <summary>The values of all rows: the column itself, or the fixed value written out.</summary>
    public ReadOnlySpan<double> Column(StudyVariable variable, Span<double> room)
    {
        var at = place[(int)variable];
        if (at >= 0)
        {
            return columns[at].AsSpan(0, count);
        }

        room = room[..count];
        room.Fill(values[(int)variable]);
        return room;
    }
}
