namespace MicRegister.Register.Intake;

/// <summary>How much of each kind a register holds.</summary>
public static class KindsOfRegister
{
    extension(Register register)
    {
        /// <summary>How many facts count, by their kind; kinds of which none counts are left out.</summary>
        public SortedDictionary<string, int> CountsByKind()
        {
            var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
            for (var sequence = 1; sequence <= register.Count; sequence++)
            {
                if (!register.Counts(sequence)) continue;
                var kind = register.Catalog.Kind(sequence);
                counts[kind] = counts.GetValueOrDefault(kind) + 1;
            }
            return counts;
        }
    }
}
