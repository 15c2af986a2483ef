using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>What only a person can say of columns.</content>
internal sealed partial class HeaderSettling
{
    private void AskWhichNames()
    {
        // Whoever says what the columns hold that nobody understands says this too.
        if (_questions.Exists(q => q.MayName))
        {
            header.AwaitsNames = true;
            return;
        }
        var candidates = Enumerable.Range(0, header.Row.Cells.Length).Where(i => header.Row.At(i).Shown.Length > 0)
            .Select(i => (Place: i, Profile: Profile(i))).Where(p => MayNameDevices(p.Place, p.Profile))
            .OrderByDescending(p => p.Profile.Distinct).ToList();
        if (candidates.Count == 0)
        {
            // "Case | Pieces" beside the sheets of the cases.
            header.HoldsNoDevices = sheet.Length > 0 && !header.HoldsResults && !header.Has(Column.Kind) && !header.Has(Column.Model);
            if (header.HoldsNoDevices) _questions.Clear();
            return;
        }
        var question = new ImportQuestion(QuestionForms.Names, sheet, "Which column holds the serial numbers?",
            [.. candidates.Take(8).Select(c => new ImportChoice($"'{header.Row.At(c.Place).Shown}' ({c.Profile.Shown})",
                LegendText.HeaderRule(header.Row.At(c.Place).Shown, Column.Serial.Key)))])
        { Name = "Serial numbers" };
        _questions.Insert(0, question.Seen(null));
    }

    // A log speaks of the devices that another sheet lists: their numbers tell which column names them.
    private void SettleKnown()
    {
        // Whoever calls the numbers of the house serial numbers would register each device a second time.
        if (header.Places.TryGetValue(Column.Serial, out var said) && sheet.Length > 0 && !header.Has(Code)
            && !header.Divided.ContainsKey(said) && Known.Value.Hold(Code, Texts(said)) && !Known.Value.Hold(Column.Serial, Texts(said)))
        {
            header.Unsettle(Column.Serial, said, mapping);
            header.Settle(said, Code, mapping);
        }
        if (Names || sheet.Length == 0) return;
        foreach (var column in new[] { Column.Serial, Code })
        {
            var places = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Kind: null }
                && !header.Noted.Contains(i) && !header.Places.Values.Contains(i)
                && Known.Value.Hold(column, _sample.Select(r => r.At(i).Shown))).ToList();
            if (places is not [var only]) continue;
            _questions.RemoveAll(q => q.Name == header.Row.At(only).Shown);
            header.Settle(only, column, mapping);
            header.Guessed.Add((only, column.Meaning));
        }
    }

    // Numbers of devices are no days, results or counts, and no words with a number behind them.
    private bool MayNameDevices(int i, ColumnProfile profile) => profile is { Filled: > 0, CountsRows: false, Sensitivities: 0 }
        && profile.Filled * 10 >= _sample.Count * 8 && profile.Mostly(profile.WithDigits) && !profile.Mostly(profile.Days)
        && !(profile.NearlyAll(profile.Numbers) && (profile.LooksMeasured || profile.Greatest < LeastNumber))
        && _sample.Count(r => r.At(i).Shown.Contains(' ', StringComparison.Ordinal)) * 2 < profile.Filled
        && header.Units.GetValueOrDefault(i) is null;

    private const int LeastNumber = 100;

    // Of two columns that claim one meaning only a person knows which one has it.
    private void AskContended()
    {
        foreach (var i in Enumerable.Range(0, header.Readings.Count).Where(header.IsTwice).ToList())
        {
            if (header.Readings[i] is not { Column: { } column, Year: null, Index: null, Kind: null }) continue;
            header.NoLongerTwice(i);
            if (YieldsTo(i, column)) continue;
            // The number of the house counts, and what its label bears is kept beside it.
            if (column == Column.Fields[DeviceField.InventoryCode] && header.Places.TryGetValue(column, out var code)
                && IsOfLabel(i) != IsOfLabel(code))
            {
                var (kept, noted) = IsOfLabel(i) ? (code, i) : (i, code);
                header.Unsettle(column, code, mapping);
                header.Settle(kept, column, mapping);
                header.Noted.Add(noted);
                continue;
            }
            header.IsContended = true;
            if (header.Places.TryGetValue(column, out var first) && header.Readings[first] is not null
                && !header.Divided.ContainsKey(first))
            {
                header.Unsettle(column, first, mapping);
                header.Guessed.RemoveAll(g => g.Column == first);
                Ask(first, Profile(first), column);
            }
            Ask(i, Profile(i), column);
        }
    }

    private bool IsOfLabel(int i) => HeaderConcepts.Split(header.Row.At(i).Shown).Any(w => w.Contains("barre", StringComparison.Ordinal)
        || w.Contains("barras", StringComparison.Ordinal) || w is "barcode" or "strichcode"
        or "streepjescode" or "barres" or "barras" or "barre" or "qr" or "etikett" or "aufkleber" or "sticker" or "label");

    private void Ask(int i, ColumnProfile profile, Column? guess = null)
    {
        var text = header.Row.At(i).Shown;
        if (_questions.Exists(q => q.Name == text)) return;
        if (guess != Column.Place && Texts(i) is { Count: >= FewestOfAPair } texts
            && Array.Find(PlainMarks, m => IsMark(texts, m)) is { } mark)
        {
            AskParts(i, mark);
            return;
        }
        var choices = new List<ImportChoice>();
        foreach (var column in Likely(i, profile, guess).Distinct()
            .Take(6)) choices.Add(new(column.Meaning, LegendText.HeaderRule(text, column.Key)));
        choices.Add(new(Column.Noted.Meaning, LegendText.HeaderRule(text, Column.Noted.Key)));
        choices.Add(new(Column.LeftOut.Meaning, LegendText.HeaderRule(text, Column.LeftOut.Key)));
        var question = new ImportQuestion("column " + text.ToLowerInvariant(), sheet, $"What stands under '{text}'? ({profile.Shown})",
            choices)
        { Name = text };
        foreach (var example in profile.First) question.Seen(example);
        question.Rows = profile.Filled;
        question.MayName = profile.Distinct * 10 >= profile.Filled * 9 && profile.Mostly(profile.WithDigits)
            && !profile.Mostly(profile.Days)
            && !(profile.Mostly(profile.Numbers) && profile.LooksMeasured);
        _questions.Add(question);
    }

    private Column? OfAir(int i, ColumnProfile profile) => !profile.NearlyAll(profile.Numbers) ? null
        : header.Units.GetValueOrDefault(i) switch
        {
            "°C" => Column.Temperature,
            "kPa" or "hPa" => Column.Pressure,
            "%" when profile.Greatest > MostUncertainty => Column.Humidity,
            _ => null,
        };

    private IEnumerable<Column> Likely(int i, ColumnProfile profile, Column? guess)
    {
        if (guess is not null && !header.Has(guess)) yield return guess;
        // A unit says what its numbers may be, and nothing else is offered.
        if (OfAir(i, profile) is { } air)
        {
            if (!header.Has(air)) yield return air;
            yield break;
        }
        if (profile.Mostly(profile.Days))
        {
            foreach (var column in new[] { Column.Day, Column.Due, Column.Inspected }.Where(c => !header.Has(c))) yield return column;
            yield break;
        }
        if (profile.Mostly(profile.Kinds) && !Tells(Column.Kind)) yield return Column.Kind;
        if (profile.Mostly(profile.Numbers))
        {
            if (!header.Has(Column.Value)) yield return Column.Value;
            if (!header.Has(Column.Uncertainty) && profile.Least > 0 && profile.Greatest < 5) yield return Column.Uncertainty;
        }
        if (!header.Has(Column.Serial) && (profile.AllDiffer || (!Names && profile.Mostly(profile.WithDigits)))) yield return Column.Serial;
        // What several devices share is no number of one, and names of makers and laboratories have no digits.
        var differs = profile.Distinct * 10 >= profile.Filled * 8;
        Column[] likely = profile.Mostly(profile.WithDigits)
            ? differs ? [Code, Column.Certificate, Column.Model, Column.Place] : [Column.Model, Column.Place, Column.Certificate]
            : [Column.Model, Column.Maker, Column.Place, Column.Status, Column.Laboratory];
        foreach (var column in likely.Where(c => !Tells(c))) yield return column;
    }

    // Two columns of results, one in mV/Pa and one in dB, have to say the same.
    private void CheckSecondValue()
    {
        foreach (var (first, also) in header.Again)
        {
            var (unit, other) = (header.Units.GetValueOrDefault(first), header.Units.GetValueOrDefault(also));
            if (SecondValue.Disagreeing(rows, first, unit, also, other) is not { } row) continue;
            var (one, two) = (header.Row.At(first).Shown, header.Row.At(also).Shown);
            _questions.Add(new ImportQuestion($"second {also}", sheet,
                $"The columns '{one}' and '{two}' do not say the same (row {row.Number}: {row.At(first).Shown} and {row.At(also).Shown}). "
                + "Which one holds the results?",
            [
                new($"'{one}'; leave the other out", LegendText.HeaderRule(two, Column.LeftOut.Key)),
                new($"'{two}'; leave the first out", LegendText.HeaderRule(one, Column.LeftOut.Key)),
            ]).Seen(row.At(also).Shown));
        }
    }
}
