using System.Globalization;

namespace MicRegister.Documents.Drawings;

/// <summary>The coming twelve weeks in one strip: campaigns as spans, and what falls due or has to start as marks on its day.</summary>
public static class WeeksAhead
{
    /// <summary>How many weeks it shows.</summary>
    public const int Weeks = 12;

    private const double Left = 4;
    private const double Top = 9;
    private const double RowMm = 6.5;
    private const double NameMm = 2.8;

    /// <summary>Draws it.</summary>
    /// <param name="from">Its first day.</param>
    /// <param name="spans">Campaigns: key, name, first and last day; those outside are left out.</param>
    /// <param name="days">What lies on a day: role, key and words; those of one day stand above each other, at most five.</param>
    /// <param name="widthMm">Its width.</param>
    public static Drawing Of(
        DateOnly from, IReadOnlyList<(string Key, string Name, DateOnly First, DateOnly Last)> spans,
        IReadOnlyList<(DateOnly Day, Role Role, string Key, string Words)> days, double widthMm = 180)
    {
        var until = from.AddDays(7 * Weeks);
        var shown = spans.Where(s => s.Last >= from && s.First < until).OrderBy(s => s.First).ThenBy(s => s.Name, StringComparer.Ordinal)
            .ToList();
        double X(DateOnly day) =>
            Left + ((widthMm - (2 * Left)) * Math.Clamp(day.DayNumber - from.DayNumber, 0, 7 * Weeks) / (7.0 * Weeks));
        var marks = days.Where(d => d.Day >= from && d.Day < until).GroupBy(d => d.Day).OrderBy(g => g.Key).ToList();
        var stack = Math.Min(5, marks.Select(g => g.Count()).DefaultIfEmpty(0).Max());
        var floor = Top + (shown.Count * RowMm) + (stack * 3) + 3;
        var shapes = new List<Shape>();
        for (var week = 0; week <= Weeks; week++)
        {
            var day = from.AddDays(7 * week);
            shapes.Add(new Line(Role.Grid, [(X(day), Top - 2), (X(day), floor)]));
            if (week < Weeks) shapes.Add(new Label(Role.Quiet, X(day) + 0.6, 5, day.ToString(week == 0 || day.Month != day.AddDays(-7).Month
                ? "d MMM" : "d ", CultureInfo.InvariantCulture).Trim(), -1, 2.6));
        }
        shapes.Add(new Line(Role.Axis, [(Left, floor), (widthMm - Left, floor)]));
        foreach (var (span, row) in shown.Select((s, i) => (s, i)))
        {
            var y = Top + (row * RowMm);
            var (a, b) = (X(span.First), Math.Max(X(span.Last.AddDays(1)), X(span.First) + 2));
            shapes.Add(new Line(Role.Span, [(a, y), (b, y), (b, y + 4.5), (a, y + 4.5)], IsArea: true));
            shapes.Add(NameOf(span.Name, a, b, y + 3.2, widthMm));
            shapes.Add(new Mark(Role.Ink, (a + b) / 2, y + 2.25, 1.8, MarkForm.Diamond, span.Key,
                FormattableString.Invariant($"{span.Name}, {span.First:yyyy-MM-dd} to {span.Last:yyyy-MM-dd}")));
        }
        foreach (var day in marks)
        {
            foreach (var (mark, i) in day.Take(5).Select((m, i) => (m, i)))
                shapes.Add(new Mark(mark.Role, X(day.Key) + 1, floor - 2 - (3 * i), 1.8, FormOf(mark.Role), mark.Key,
                    FormattableString.Invariant($"{day.Key:yyyy-MM-dd}: {mark.Words}")));
            if (day.Count() > 5) shapes.Add(new Label(Role.Quiet, X(day.Key) + 3, floor - 2, $"+{day.Count() - 5}", -1, 3));
        }
        var title = FormattableString.Invariant(
            $"Twelve weeks from {from:yyyy-MM-dd}: {shown.Count} campaigns, {marks.Sum(g => g.Count())} days that matter");
        return new(widthMm, floor + 3, title, shapes);
    }

    // Behind its span, before it, or in its first half, wherever it is whole; else cut where most of it is seen. The mark tells it whole.
    private static Label NameOf(string name, double from, double to, double y, double widthMm)
    {
        var (behind, before, within) = (widthMm - Left - to - 1.5, from - 1.5 - Left, ((to - from) / 2) - 4);
        var width = TextWidth.Mm(name, NameMm);
        var place = behind >= width ? behind : before >= width ? before : within >= width ? within
            : Math.Max(behind, Math.Max(before, within));
        if (width > place) name = Cut(name, place);
        return place == behind ? new(Role.Ink, to + 1.5, y, name, -1, NameMm)
            : place == before ? new(Role.Ink, from - 1.5, y, name, 1, NameMm)
            : new(Role.Ink, from + 1.5, y, name, -1, NameMm);
    }

    private static string Cut(string name, double widthMm)
    {
        var most = name.Length;
        while (most > 0 && TextWidth.Mm(name[..most] + "…", NameMm) > widthMm) most--;
        if (most > 0 && char.IsHighSurrogate(name[most - 1])) most--;
        return name[..most].TrimEnd() + "…";
    }

    private static MarkForm FormOf(Role role) => role switch
    {
        Role.Stop => MarkForm.Square,
        Role.Risk => MarkForm.Triangle,
        Role.Undecided => MarkForm.Diamond,
        _ => MarkForm.Disc,
    };
}
