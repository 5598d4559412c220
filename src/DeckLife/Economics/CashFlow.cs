namespace DeckLife.Economics;

/// <summary>Sums of dated money.</summary>
public static class CashFlow
{
    /// <summary>Present value of dated payments; what is paid at time 0 counts in full.</summary>
    /// <param name="payments">The payments.</param>
    /// <param name="rate">Real discount rate.</param>
    public static double PresentValue(IEnumerable<Payment> payments, DiscountRate rate)
    {
        ArgumentNullException.ThrowIfNull(payments);
        var sum = 0.0;
        foreach (var payment in payments)
        {
            sum += payment.Amount * rate.PresentWorth(payment.TimeYr);
        }

        return sum;
    }

    /// <summary>Present value of one amount a year, the first at time 0 and not discounted.</summary>
    /// <param name="amounts">Amount at time 0, 1, 2… [yr].</param>
    /// <param name="rate">Real discount rate.</param>
    /// <remarks>
    /// Spreadsheets often discount the first amount by a whole year; the two conventions differ by the factor 1 + i.
    /// </remarks>
    public static double PresentValueFromYearZero(ReadOnlySpan<double> amounts, DiscountRate rate)
    {
        var sum = 0.0;
        for (var t = 0; t < amounts.Length; t++)
        {
            sum += amounts[t] * rate.PresentWorth(t);
        }

        return sum;
    }
}
