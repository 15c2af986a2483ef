using System.Collections.Concurrent;
using System.Collections.Immutable;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Drift;

/// <summary>The drift books of one state, one a day, each made from the book of an earlier state where only some devices changed since.</summary>
internal sealed class DriftShelf : ICarriedOn
{
    /// <summary>More touched devices than this are not followed one by one.</summary>
    private const int MostTouched = 2_000;

    private readonly ConcurrentDictionary<DateOnly, DriftBook> _books = new();

    // Of the newest earlier state that had books, with the devices touched since.
    private readonly ConcurrentDictionary<DateOnly, DriftBook>? _earlier;
    private readonly ImmutableHashSet<string> _touched;

    /// <summary>A shelf that knows nothing of earlier states.</summary>
    public DriftShelf() => _touched = [];

    private DriftShelf(ConcurrentDictionary<DateOnly, DriftBook> earlier, ImmutableHashSet<string> touched) => (_earlier, _touched) = (earlier, touched);

    /// <summary>The book of a day.</summary>
    public DriftBook Book(Register register, DateOnly day) => _books.GetOrAdd(day, d =>
        _earlier is not null && _earlier.TryGetValue(d, out var book) ? book.With(register, _touched) : new(register, d, register.DriftMemory));

    ICarriedOn ICarriedOn.Next(IReadOnlySet<string> changed)
    {
        var (books, before) = _books.IsEmpty ? (_earlier, _touched) : (_books, []);
        if (books is null) return new DriftShelf();
        var touched = before.Union(changed.Where(Subject.IsDevice).Select(Subject.Id));
        return touched.Count <= MostTouched ? new DriftShelf(books, touched) : new DriftShelf();
    }
}
