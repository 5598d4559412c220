namespace DeckLife.Surveys;

/// <summary>Equal cells over a deck's plan, numbered along the deck first.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Along">Cells along the deck.</param>
/// <param name="Across">Cells across it.</param>
internal readonly record struct DeckGrid(DeckPlan Plan, int Along, int Across)
{
    /// <summary>Number of cells.</summary>
    public int Count => Along * Across;

    /// <summary>Side of a cell along the deck [m].</summary>
    public double StepX => Plan.LengthM / Along;

    /// <summary>Side of a cell across the deck [m].</summary>
    public double StepY => Plan.WidthM / Across;

    /// <summary>Centre of a cell along the deck [m].</summary>
    public double X(int cell) => Plan.Left + ((cell % Along) + 0.5) * StepX;

    /// <summary>Centre of a cell across the deck [m].</summary>
    public double Y(int cell) => Plan.Low + ((cell / Along) + 0.5) * StepY;

    /// <summary>The cell that a place falls in; places just outside belong to the nearest.</summary>
    public int CellAt(double x, double y) =>
        Math.Clamp((int)Math.Floor((x - Plan.Left) / StepX), 0, Along - 1)
        + Along * Math.Clamp((int)Math.Floor((y - Plan.Low) / StepY), 0, Across - 1);

    /// <summary>Centres of all cells [m].</summary>
    public (double[] X, double[] Y) Centres()
    {
        var grid = this;
        return (
            [.. Enumerable.Range(0, Count).Select(c => grid.X(c))],
            [.. Enumerable.Range(0, Count).Select(c => grid.Y(c))]
        );
    }
}
