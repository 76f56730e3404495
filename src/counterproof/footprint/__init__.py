"""From foods to greenhouse gases: factors, activities, draws."""
