namespace MicRegister.Register.Fold;

/// <summary>Texts that come again and again, each with a number. One writer adds; readers take no lock.</summary>
internal sealed class NameTable
{
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private string[] _names;

    public NameTable(IReadOnlyList<string> names)
    {
        _names = [.. names];
        for (var i = 0; i < names.Count; i++) _numbers.Add(names[i], i);
    }

    /// <summary>The text of a number.</summary>
    public string this[int number] => Volatile.Read(ref _names)[number];

    /// <summary>All texts by number.</summary>
    public IReadOnlyList<string> All()
    {
        lock (_numbers) return _names[.._numbers.Count];
    }

    /// <summary>The number of a text; -1 where it never came.</summary>
    public int Find(string name)
    {
        lock (_numbers) return _numbers.GetValueOrDefault(name, -1);
    }

    /// <summary>The number of a text, a new one where it never came.</summary>
    public int Add(string name)
    {
        lock (_numbers)
        {
            if (_numbers.TryGetValue(name, out var number)) return number;
            number = _numbers.Count;
            var names = _names;
            if (number == names.Length)
            {
                names = new string[Math.Max(16, number * 2)];
                _names.CopyTo(names, 0);
            }
            names[number] = name;
            Volatile.Write(ref _names, names);
            _numbers.Add(name, number);
            return number;
        }
    }
}
